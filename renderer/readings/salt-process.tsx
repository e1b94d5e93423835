import { useState, type ReactNode } from 'react';
import type { ScheduledForBatch } from '../../app/contract/requests/papers.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { PressButton } from '../parts/button.tsx';
import { Leaf } from '../parts/leaf.tsx';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';

const text = words.office.papersPages.scheduled.forBatch;

/** Whether a batch's salt may be judged by a scheduled process on file, and by which; nothing where none is on file. */
export function SaltProcess({ batchId }: { readonly batchId: string }): ReactNode {
  const answer = useAsk('scheduled.forBatch', { batchId });
  const [isChoosing, setIsChoosing] = useState(false);
  const choices = answer.data?.choices ?? [];
  if (choices.length === 0) return null;
  const chosenId = answer.data?.chosenId ?? null;
  const chosen = choices.find(({ scheduledId }) => scheduledId === chosenId);
  return (
    <section className="sheet stack" aria-label={text.title}>
      <h2>{text.title}</h2>
      {chosen === undefined ? <p className="soft">{text.none}</p> : <Comparison choice={chosen} />}
      <div><PressButton onPress={() => setIsChoosing(true)}>{chosen === undefined ? text.choose : text.chooseOther}</PressButton></div>
      {isChoosing ? <ChooseLeaf batchId={batchId} choices={choices} chosenId={chosenId} onClose={() => setIsChoosing(false)} /> : null}
    </section>
  );
}

interface ChooseLeafProps {
  readonly batchId: string;
  readonly choices: readonly ScheduledForBatch[];
  readonly chosenId: string | null;
  onClose(): void;
}

function ChooseLeaf({ batchId, choices, chosenId, onClose }: ChooseLeafProps): ReactNode {
  const { onDuty } = useKitchen();
  const choosing = useCommand('batch.useScheduled');
  const choose = async (scheduledId: string | null): Promise<void> => {
    if ((await choosing.send({ batchId, scheduledId })) !== null) onClose();
  };
  return (
    <Leaf title={text.title} wide onClose={onClose}>
      <p>{text.lead}</p>
      {onDuty?.role === 'hand' || onDuty === null ? <p className="help">{text.needChef}</p> : null}
      {choices.map((choice) => (
        <section key={choice.scheduledId} className="stack" aria-label={choice.name}>
          <Comparison choice={choice} />
          <div>
            {choice.scheduledId === chosenId
              ? <PressButton label={text.takeOffOne(choice.name)} isDisabled={choosing.busy} onPress={() => { void choose(null); }}>{text.takeOff}</PressButton>
              : <PressButton label={text.judgeByOne(choice.name)} isDisabled={choosing.busy} onPress={() => { void choose(choice.scheduledId); }}>{text.judgeBy}</PressButton>}
          </div>
        </section>
      ))}
      <ProblemNote failure={choosing.failure} />
      <div className="row"><PressButton onPress={onClose}>{words.parts.close}</PressButton></div>
    </Leaf>
  );
}

/** Each limit of the window beside what the batch was; what is outside is said in words, not by colour. */
function Comparison({ choice }: { readonly choice: ScheduledForBatch }): ReactNode {
  return (
    <>
      <p><b>{choice.name}</b> <span className="soft">{choice.letter}</span></p>
      <div className="wide-table">
        <table>
          <thead><tr><th>{text.what}</th><th>{text.asked}</th><th>{text.was}</th><th>{text.standing}</th></tr></thead>
          <tbody>
            {choice.window.map((item) => (
              <tr key={item.what}><td>{item.what}</td><td>{item.asked}</td><td>{item.actual ?? text.notRecorded}</td><td>{item.inside ? text.inside : <b>{text.outside}</b>}</td></tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>{choice.reason}</p>
    </>
  );
}
