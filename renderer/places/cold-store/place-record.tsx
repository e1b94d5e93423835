import { useMemo, useState, type ReactNode } from 'react';
import type { Place } from '../../../app/contract/requests/office.ts';
import type { LimitLine, Point } from '../../../app/contract/requests/smokehouse.ts';
import { exactTicks } from '../../../app/measures/temperature.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { decodeSeries } from '../../chart/decode-series.ts';
import { ProbeChart } from '../../chart/probe-chart.tsx';
import { PressButton } from '../../parts/button.tsx';
import { CheckSource } from '../../parts/check-list.tsx';
import { EnterReadings } from '../../readings/enter-readings.tsx';
import { ImportFile } from '../../readings/import-file.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { VerdictShape } from '../../parts/verdict-shape.tsx';
import { PaperLinks } from '../../print/paper-links.tsx';
import { words } from '../../words/words.ts';

const text = words.coldStore;

interface PlaceRecordProps {
  readonly placeId: string;
  readonly kind: Place['kind'];
  readonly name: string;
}

/** The record of one cold place: chart, typing, import. */
export function PlaceRecord({ placeId, kind, name }: PlaceRecordProps): ReactNode {
  const record = useAsk('place.get', { placeId });
  const [leaf, setLeaf] = useState<'enter' | 'import' | null>(null);
  const [done, setDone] = useState<string | null>(null);
  const series = useMemo(
    () => (record.data === undefined ? [] : [{ ...decodeSeries(record.data.series), pointId: record.data.pointId, name, badge: '', colour: 'var(--series-1)', role: 'store' as const }]),
    [record.data, name],
  );
  if (record.data === undefined) return <ProblemNote failure={failureOf(record.error)} />;
  const point: Point = { id: record.data.pointId, name, role: kind === 'brining-room' ? 'room' : 'store', batchId: null, thicknessMm: null, rackPlace: '', instrumentId: null, instrumentName: '' };
  return (
    <section className="sheet stack">
      <div className="spread middle">
        <h2>{name}</h2>
        <div className="row">
          <PressButton onPress={() => setLeaf('import')}>{text.importFile}</PressButton>
          <PressButton look="next" onPress={() => setLeaf('enter')}>{text.enter}</PressButton>
        </div>
      </div>
      {done === null ? null : <p className="strong" role="status">{done}</p>}
      <ProbeChart title={text.chartTitle(name)} series={series} limits={limitOf(kind)} />
      <PaperLinks kinds={['store']} subjectId={point.id} />
      <PlaceVerdict placeId={placeId} />
      <DrawnLimit kind={kind} />
      <p className="soft small">{text.onceADay}</p>
      {leaf === 'enter' ? <EnterReadings points={[point]} needs={[]} onClose={() => setLeaf(null)} /> : null}
      {leaf === 'import' ? <ImportFile loadId={null} points={[point]} mayMark={false} onClose={() => setLeaf(null)} onDone={(sentence) => { setDone(sentence); setLeaf(null); }} /> : null}
    </section>
  );
}

/** What the judge says of the last days of this place's record. */
function PlaceVerdict({ placeId }: { readonly placeId: string }): ReactNode {
  const formats = useFormats();
  const answer = useAsk('place.verdict', { placeId });
  const { checks = [], fromMs = 0 } = answer.data ?? {};
  return checks.map(({ checkId, verdict, reason }) => (
    <p key={checkId} className="row">
      <VerdictShape verdict={verdict} />
      <span>{text.judged(checkId, words.verdict.names[verdict], formats.moment(fromMs))} {reason}</span>
    </p>
  ));
}

/** The check that is drawn for orientation; which one decides is a batch's own set. */
const DRAWN: Readonly<Record<Place['kind'], string>> = { freezer: 'FROZEN-0F', cooler: 'STORE-38', 'brining-room': 'BRINE-4H-38' };

function limitOf(kind: Place['kind']): LimitLine[] {
  const freezer = kind === 'freezer';
  return [{ checkId: DRAWN[kind], ticks: exactTicks(freezer ? 0 : 38, 'F'), kind: 'maximum', text: freezer ? text.limits.freezer : text.limits.cooler, byMs: null }];
}

/** What the drawn limit is, and where it comes from. */
function DrawnLimit({ kind }: { readonly kind: Place['kind'] }): ReactNode {
  const limits = useAsk('limits.list', {});
  const check = limits.data?.sets.flatMap((set) => set.checks).find((each) => each.checkId === DRAWN[kind]);
  if (check === undefined) return null;
  return (
    <div>
      <p className="small">{text.drawn(check.title)}</p>
      <CheckSource check={check} />
    </div>
  );
}
