import { useMemo, type ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import type { Load } from '../../app/contract/requests/smokehouse.ts';
import { chartSeriesOf, marksOf } from '../chart/load-series.ts';
import type { Sentence } from '../chart/evidence-lanes.ts';
import { ProbeChart } from '../chart/probe-chart.tsx';
import { useFormats } from '../parts/format.ts';
import { useDoubted } from '../readings/doubted.ts';
import { words } from '../words/words.ts';

const text = words.print.record;

interface RecordReadingsProps {
  readonly batchId: string;
  readonly load: Load;
  readonly series: Output<'record.batch'>['series'];
  /** The checks by their numbers in the list. */
  readonly sentences: readonly Sentence[];
}

/** The load on paper: its pieces, its marks, the chart and every reading. */
export function RecordReadings({ batchId, load, series, sentences }: RecordReadingsProps): ReactNode {
  const formats = useFormats();
  const drawn = useMemo(() => chartSeriesOf(load, series), [load, series]);
  const doubted = useDoubted([batchId]);
  const moments = [...new Set(drawn.flatMap((each) => [...each.atMs]))].sort((a, b) => a - b);
  const values = drawn.map((each) => new Map([...each.atMs].map((atMs, index) => [atMs, each.ticks[index] ?? 0])));
  return (
    <>
      <h2>{text.smoke}: {words.smokehouse.loadTitle(load.smokerName, load.number)}</h2>
      <p>{marksOf(load).map((mark) => `${mark.text} ${formats.longMoment(mark.atMs)}`).join('; ')}</p>
      <ul>
        {load.points.map((point) => <li key={point.id}>{[point.name, point.rackPlace, point.thicknessMm === null ? '' : `${point.thicknessMm} mm`, point.instrumentName].filter((part) => part !== '').join(', ')}</li>)}
      </ul>
      <ProbeChart title={words.recordShelf.chartTitle} series={drawn} limits={[]} doubted={doubted} sentences={sentences} marks={marksOf(load)} />
      <p className="print-caution">{text.marks}</p>
      <h2>{text.readings}</h2>
      <table className="print-table readings">
        <thead><tr><th>{text.time}</th>{drawn.map((each) => <th key={each.pointId} className="right">{each.name}, {formats.degreeSign}</th>)}</tr></thead>
        <tbody>
          {moments.map((atMs) => (
            <tr key={atMs}>
              <td>{formats.moment(atMs)}</td>
              {values.map((value, index) => {
                const ticks = value.get(atMs);
                return <td key={drawn[index]?.pointId} className="right number">{ticks === undefined ? '' : formats.degrees(ticks)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
