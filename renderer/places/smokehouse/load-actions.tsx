import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Load } from '../../../app/contract/requests/smokehouse.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { EnterReadings } from '../../readings/enter-readings.tsx';
import { Field } from '../../parts/field.tsx';
import { ImportFile } from '../../readings/import-file.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { nextStep, type Mark } from './next-step.ts';

const text = words.smokehouse;

/** The buttons of a load; the dark one is the next right thing. */
export function LoadActions({ shown }: { readonly shown: Output<'load.get'> }): ReactNode {
  const [leaf, setLeaf] = useState<'enter' | 'import' | Mark | null>(null);
  const { load } = shown;
  const step = nextStep(shown);
  const [done, setDone] = useState<string | null>(null);
  const close = (): void => setLeaf(null);
  const finish = (sentence: string): void => {
    setDone(sentence);
    close();
  };
  const running = step !== 'done';
  const mark = useCommand('load.mark');
  const due = dueMark(load);
  /** Now, in one tap; coming out early, or closing a record that may still be read on, asks first. */
  const markNow = (what: Mark): void => {
    if (step === what) void mark.send({ loadId: load.id, what, atMs: Date.now() });
    else setLeaf(what);
  };
  return (
    <div className="row">
      {done === null ? null : <p className="strong" role="status">{done}</p>}
      {running ? <PressButton onPress={() => setLeaf('import')}>{text.importFile}</PressButton> : null}
      {running ? <PressButton look={step === 'read' ? 'next' : 'plain'} onPress={() => setLeaf('enter')}>{text.enter}</PressButton> : null}
      {due === null ? null : (
        <>
          <PressButton look={step === due ? 'next' : 'plain'} isDisabled={mark.busy} onPress={() => markNow(due)}>
            {due === 'out' && step !== 'out' ? text.takeOutEarly : MARK_WORDS[due]}
          </PressButton>
          {step === due ? <PressButton look="quiet" label={text.markedBefore(MARK_WORDS[due])} onPress={() => setLeaf(due)}>{text.earlier}</PressButton> : null}
        </>
      )}
      <ProblemNote failure={mark.failure} />
      {running ? null : <PressButton look="next" onPress={() => go(addressOf('packing-table', load.batchIds[0] ?? ''))}>{text.toPacking}</PressButton>}
      {leaf === 'enter' ? <EnterReadings points={load.points} needs={shown.needs} next={shown.nextReadings} onClose={close} /> : null}
      {leaf === 'import' ? <ImportFile loadId={load.id} points={load.points} mayMark={load.inAtMs === null || load.outAtMs === null} onClose={close} onDone={finish} /> : null}
      {leaf === 'in' || leaf === 'out' || leaf === 'cooled' ? <MarkLeaf loadId={load.id} what={leaf} early={leaf === 'out' && step !== 'out'} onClose={close} /> : null}
    </div>
  );
}

const MARK_WORDS: Readonly<Record<Mark, string>> = { in: text.fishIsIn, out: text.takeOut, cooled: text.cooled };

/** The mark that a load waits for. */
function dueMark(load: Load): Mark | null {
  if (load.inAtMs === null) return 'in';
  if (load.outAtMs === null) return 'out';
  return load.cooledAtMs === null && load.process === 'hot' ? 'cooled' : null;
}

interface MarkLeafProps {
  readonly loadId: string;
  readonly what: Mark;
  readonly early: boolean;
  onClose(): void;
}

/** Says when the fish went in, came out or was cooled; coming out early asks why. */
function MarkLeaf({ loadId, what, early, onClose }: MarkLeafProps): ReactNode {
  const mark = useCommand('load.mark');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [why, setWhy] = useState('');
  const [whyFault, setWhyFault] = useState(false);
  const title = early ? text.takeOutEarly : MARK_WORDS[what];
  const send = async (): Promise<void> => {
    setWhyFault(early && why.trim() === '');
    if (early && why.trim() === '') return;
    const answer = await mark.send({ loadId, what, atMs: atMs ?? Date.now(), ...(why.trim() === '' ? {} : { why }) });
    if (answer !== null) onClose();
  };
  return (
    <Leaf title={title} onClose={onClose}>
      {early ? (
        <>
          <Field label={text.whyEarly} value={why} fault={whyFault ? text.whyEarlyFault : null} onChange={setWhy} />
          <p className="note caution">{text.missesStay}</p>
        </>
      ) : null}
      <MomentField label={text.markAt} value={null} onChange={setAtMs} />
      <ProblemNote failure={mark.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={mark.busy} onPress={() => { void send(); }}>{title}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}
