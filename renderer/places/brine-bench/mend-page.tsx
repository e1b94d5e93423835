import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { emptyMend, isNothingToDo, TROUBLE_KINDS, troubleOf, type MendDraft, type TroubleKind } from './mend-draft.ts';
import { MendFigures } from './mend-figures.tsx';
import { MendPlanView } from './mend-plan-view.tsx';

const text = words.brineBench.mend;

/** Mend it now: what is wrong, one or two figures, and what to do about it. */
export function MendPage({ batch }: { readonly batch: Batch }): ReactNode {
  const hasEnded = batch.soak.some((event) => event.what === 'end');
  const isDry = batch.card.cure === 'dry';
  const kinds = TROUBLE_KINDS.filter((kind) => kind === 'too-salty' || !(hasEnded || isDry));
  const [kind, setKind] = useState<TroubleKind | null>(null);
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.title(batch.shortName)}</h1>
          <p className="soft">{kind === null ? text.lead : text.kinds[kind]}</p>
        </div>
        <div className="row">
          {kind === null ? null : <PressButton onPress={() => setKind(null)}>{text.other}</PressButton>}
          <a className="button link" href={addressOf('brine-bench', batch.id)}>{words.brineBench.weigh.leave}</a>
        </div>
      </div>
      {hasEnded || isDry ? <p className="note">{isDry ? text.dryCure : text.tooLate}</p> : null}
      {kind === null ? (
        <div className="trouble-kinds">
          {kinds.map((each) => (
            <button key={each} type="button" className="row-button" onClick={() => setKind(each)}>
              <span className="trouble">{text.kinds[each]}</span>
              <span className="soft">{text.kindHelp[each]}</span>
            </button>
          ))}
        </div>
      ) : <Trouble batch={batch} kind={kind} key={kind} />}
    </>
  );
}

function Trouble({ batch, kind }: { readonly batch: Batch; readonly kind: TroubleKind }): ReactNode {
  const { kitchen } = useKitchen();
  const [draft, setDraft] = useState<MendDraft>(emptyMend);
  const [atMs, setAtMs] = useState<number | null>(null);
  const mended = useCommand('brine.mended');
  const trouble = troubleOf(kind, draft, kitchen);
  const answer = useAsk('brine.mend', trouble === null ? null : { batchId: batch.id, trouble });
  const failure = trouble === null ? null : failureOf(answer.error);
  // While new figures are worked out the plan of the old ones must not be followed.
  const isCurrent = trouble !== null && failure === null && !answer.isFetching && !answer.isPlaceholderData;
  const plan = isCurrent ? answer.data?.plan : undefined;
  const send = async (): Promise<void> => {
    if (trouble === null) return;
    const done = await mended.send({ batchId: batch.id, trouble, atMs: atMs ?? Date.now() });
    if (done !== null) go(addressOf('brine-bench', batch.id));
  };
  return (
    <div className="halves">
      <section className="sheet stack">
        <MendFigures batch={batch} kind={kind} draft={draft} failure={failure} onChange={(change) => setDraft({ ...draft, ...change })} />
        <ProblemNote failure={failure} />
      </section>
      <section className="sheet stack" aria-live="polite">
        {plan === undefined ? <p className="soft">{trouble === null || failure !== null ? text.planWaits : text.working}</p> : (
          <>
            <MendPlanView plan={plan} />
            {isNothingToDo(plan) ? null : (
              <>
                <MomentField label={text.at} value={null} fault={faultOf(mended.failure, 'atMs')} onChange={setAtMs} />
                <ProblemNote failure={mended.failure} />
                <div className="row"><PressButton look="next" isDisabled={mended.busy} onPress={() => { void send(); }}>{text.done}</PressButton></div>
              </>
            )}
          </>
        )}
      </section>
    </div>
  );
}
