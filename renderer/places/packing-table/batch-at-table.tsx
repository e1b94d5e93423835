import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { CheckList } from '../../parts/check-list.tsx';
import { Choices } from '../../parts/choices.tsx';
import { WeighBatch } from '../../readings/weigh-batch.tsx';
import { Doubts } from '../../readings/doubts.tsx';
import { SaltProcess } from '../../readings/salt-process.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { CorrectBatch } from './correct-batch.tsx';
import { CorrectivePanel } from './corrective-panel.tsx';
import { DecisionPanel, useMustDecideAgain } from './decision-panel.tsx';
import { LabPanel } from './lab-panel.tsx';
import { OtherSets } from './other-sets.tsx';
import { PacksPanel } from './packs-panel.tsx';
import { ExposureDetail, LethalityDetail } from './verdict-detail.tsx';

const text = words.packingTable;

/** One batch at the table: what stands against it, the decision, and its packs. */
export function BatchAtTable({ batch }: { readonly batch: Batch }): ReactNode {
  const [pack, setPack] = useState(batch.pack);
  const [store, setStore] = useState(batch.store);
  const verdict = useAsk('batch.verdict', batch.stage === 'released' ? { batchId: batch.id } : { batchId: batch.id, pack, store });
  const mustDecideAgain = useMustDecideAgain(batch.id);
  if (verdict.data === undefined) return <ProblemNote failure={failureOf(verdict.error)} />;
  const { asRecorded, deciding, exposure, lethality, others, unconfirmed } = verdict.data;
  const last = verdict.data.decisions.at(-1);
  const released = last?.decision === 'release';
  // Nothing is packed or labelled on a release that no longer stands: the decision comes first again.
  const mayPack = released && !mustDecideAgain;
  return (
    <>
      <div>
        <h1>{text.head(batch.shortName, batch.marketName)}</h1>
        <p className="soft">
          {batch.lotCode === null ? text.noLot : text.lot(batch.lotCode)}
          {batch.ownerName === null ? '' : `. ${text.guest(batch.ownerName)}`}
        </p>
      </div>
      <div className={mayPack ? 'columns' : 'columns deed-first'}>
        <div className="stack">
          {mayPack ? <PacksPanel batch={batch} /> : null}
          <section className="sheet stack">
            <h2>{text.evidence}</h2>
            <p>{deciding.words}</p>
            {asRecorded === null ? null : <p className="soft">{words.doubts.asRecorded}: {asRecorded.words}</p>}
            <CheckList result={deciding} />
            {unconfirmed.length === 0 ? null : (
              <div className="note caution">
                <p>{words.verdict.unconfirmed}</p>
                <ul>{unconfirmed.map((line) => <li key={line}>{line}</li>)}</ul>
                <a className="link" href="#/office">{text.toOffice}</a>
              </div>
            )}
            <OtherSets others={others} />
          </section>
          <Doubts batchId={batch.id} />
          {exposure === null ? null : <ExposureDetail exposure={exposure} />}
          {lethality === null ? null : <LethalityDetail lethality={lethality} />}
          <section className="sheet stack">
            <h2>{text.corrective.weights.title}</h2>
            <WeighBatch batch={batch} what="finished" />
            <CorrectBatch batch={batch} />
          </section>
          <LabPanel batchId={batch.id} results={verdict.data.labResults} />
          <SaltProcess batchId={batch.id} />
        </div>
        <div className="stack">
          {released ? null : (
            <section className="sheet stack" aria-label={text.plan}>
              <Choices label={text.pack} value={pack} choices={(['vacuum', 'air', 'unpacked'] as const).map((id) => ({ id, text: text.packs[id] }))} onChange={setPack} />
              <Choices label={text.store} value={store} choices={(['frozen', 'refrigerated'] as const).map((id) => ({ id, text: text.stores[id] }))} onChange={setStore} />
            </section>
          )}
          <DecisionPanel batch={batch} gates={verdict.data.gates} decisions={verdict.data.decisions} pack={pack} store={store} />
          <CorrectivePanel batch={batch} checks={deciding.checks} keptWhere={last?.decision === 'hold' ? last.keptWhere : ''} />
          {released ? null : <p className="soft">{text.releaseFirst}</p>}
        </div>
      </div>
      <p className="foot">{words.frame.caution}</p>
    </>
  );
}
