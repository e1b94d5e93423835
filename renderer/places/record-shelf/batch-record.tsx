import { useMemo, useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { sentenceKey, sentencesOf } from '../../chart/evidence-lanes.ts';
import { ProbeChart } from '../../chart/probe-chart.tsx';
import { chartSeriesOf, marksOf } from '../../chart/load-series.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { CheckList } from '../../parts/check-list.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { useDoubted } from '../../readings/doubted.ts';
import { words } from '../../words/words.ts';
import { EntryList } from './entry-list.tsx';
import { FishAndBrine } from './fish-and-brine.tsx';
import { ComplaintPanel } from './complaint-panel.tsx';
import { traceAddress } from './find-anything.tsx';
import { ReviewPanel } from './review-panel.tsx';
import { WherePanel } from './where-panel.tsx';

const text = words.recordShelf;
const TO_PACKING = words.packingTable;

/** Everything that was recorded about one batch, and its print. */
export function BatchRecord({ batchId }: { readonly batchId: string }): ReactNode {
  const record = useAsk('record.batch', { batchId });
  if (record.data === undefined) return <ProblemNote failure={failureOf(record.error)} />;
  return <RecordShown record={record.data} />;
}

function RecordShown({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const formats = useFormats();
  const { batch, load } = record;
  const series = useMemo(() => (load === null ? [] : chartSeriesOf(load, record.series)), [load, record.series]);
  const [chosen, setChosen] = useState<string | null>(null);
  const sentences = useMemo(() => sentencesOf(record.deciding.checks, batch.id), [record.deciding.checks, batch.id]);
  const doubted = useDoubted([batch.id]);
  const choose = (key: string): void => setChosen(key === chosen ? null : key);
  return (
    <>
      <div className="spread">
        <div>
          <h1>{batch.lotCode ?? batch.shortName} {batch.marketName}</h1>
          <p className="soft">{record.deciding.words}</p>
        </div>
        <div className="row">
          <PressButton onPress={() => go(addressOf('record-shelf'))}>{words.parts.back}</PressButton>
          <PressButton onPress={() => go(traceAddress({ kind: 'batch', id: batch.id }))}>{words.trace.traceThis}</PressButton>
          <PressButton look="next" onPress={() => go(addressOf('print', 'record', batch.id))}>{text.print}</PressButton>
        </div>
      </div>
      <div className="halves">
        <FishAndBrine record={record} />
        <section className="sheet stack">
          <h2>{text.decided}</h2>
          {record.decisions.length === 0 ? <p className="soft">{text.undecided}</p> : (
            <ul>{record.decisions.map((each) => <li key={each.id}>{TO_PACKING.decidedBy(TO_PACKING.decided[each.decision], formats.longMoment(each.atMs), each.initials, each.reason)}{each.initialsForError ? ` ${words.worklist.initialled}` : ''}</li>)}</ul>
          )}
          <h2>{text.packsTitle}</h2>
          {record.packs.length === 0 ? <p className="soft">{text.packs(0)}</p> : (
            <ul>{record.packs.map((pack) => <li key={pack.id}><span className="number">{TO_PACKING.packLine(pack.code, formats.mass(pack.net.grams))}</span> {TO_PACKING.printed(pack.printedCount)}</li>)}</ul>
          )}
        </section>
      </div>
      <section className="sheet stack">
        <h2>{text.verdict}</h2>
        <CheckList result={record.deciding} chosen={record.deciding.checks.find((check) => sentenceKey(batch.id, check.checkId) === chosen)?.checkId ?? null} onChoose={(id) => choose(sentenceKey(batch.id, id))} />
      </section>
      {load === null ? null : (
        <section className="sheet stack">
          <h2>{text.smoke}</h2>
          <ProbeChart title={text.chartTitle} series={series} limits={[]} doubted={doubted} sentences={sentences} chosen={chosen} onChoose={choose} marks={marksOf(load)} />
        </section>
      )}
      {record.fates.length === 0 && record.ingredientLots.length === 0 ? null : <WherePanel record={record} />}
      <ComplaintPanel record={record} />
      <ReviewPanel batch={batch} />
      <EntryList record={record} />
    </>
  );
}
