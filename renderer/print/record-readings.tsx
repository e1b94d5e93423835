import { useMemo, type ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import type { ReadingTable } from '../../app/contract/requests/record.ts';
import type { Load } from '../../app/contract/requests/smokehouse.ts';
import { chartSeriesOf, marksOf } from '../chart/load-series.ts';
import type { Sentence } from '../chart/evidence-lanes.ts';
import { ProbeChart } from '../chart/probe-chart.tsx';
import { useFormats, type Formats } from '../parts/format.ts';
import { useDoubted } from '../readings/doubted.ts';
import { words } from '../words/words.ts';

const text = words.print.record;

interface RecordReadingsProps {
  readonly batchId: string;
  readonly load: Load;
  readonly series: Output<'record.batch'>['series'];
  readonly table: ReadingTable;
  /** The checks by their numbers in the list. */
  readonly sentences: readonly Sentence[];
}

/** The load on paper: its pieces, its marks, the chart and the readings. */
export function RecordReadings({ batchId, load, series, table, sentences }: RecordReadingsProps): ReactNode {
  const formats = useFormats();
  const drawn = useMemo(() => chartSeriesOf(load, series), [load, series]);
  const doubted = useDoubted([batchId]);
  return (
    <>
      <h2>{text.smoke}: {words.smokehouse.loadTitle(load.smokerName, load.number)}</h2>
      <p>{marksOf(load).map((mark) => `${mark.text} ${formats.longMoment(mark.atMs)}`).join('; ')}</p>
      <ul>
        {load.points.map((point) => <li key={point.id}>{[point.name, point.rackPlace, point.thicknessMm === null ? '' : `${point.thicknessMm} mm`, point.instrumentName].filter((part) => part !== '').join(', ')}</li>)}
      </ul>
      <ProbeChart title={words.recordShelf.chartTitle} series={drawn} limits={[]} doubted={doubted} sentences={sentences} marks={marksOf(load)} />
      <p className="print-caution">{text.marks}</p>
      <ReadingRows table={table} />
    </>
  );
}

/** Each reading, or a row a stretch; then what the book holds of every point. */
function ReadingRows({ table }: { readonly table: ReadingTable }): ReactNode {
  const formats = useFormats();
  const names = new Map(table.points.map((point) => [point.pointId, point.name]));
  return (
    <>
      <h2>{text.readings}</h2>
      <p className="print-caution">{table.stretchMinutes === null ? text.every : text.stretch(table.stretchMinutes)}</p>
      <ul className="print-caution digests">
        {table.points.map((point) => <li key={point.pointId}>{pointLine(point, formats)}</li>)}
      </ul>
      <p className="print-caution">{text.digestOf}</p>
      <table className="print-table readings">
        <thead><tr><th>{table.stretchMinutes === null ? text.time : text.from}</th>{table.pointIds.map((id) => <th key={id} className="right">{names.get(id)}, {formats.degreeSign}</th>)}</tr></thead>
        <tbody>
          {table.rows.map((row) => (
            <tr key={row.fromMs}>
              <td>{formats.moment(row.fromMs)}</td>
              {row.cells.map((cell, column) => <td key={table.pointIds[column]} className="right number">{cellText(cell, formats)}</td>)}
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function cellText(cell: ReadingTable['rows'][number]['cells'][number], formats: Formats): string {
  if (cell === null) return '';
  const low = formats.degrees(cell.lowTicks);
  const high = formats.degrees(cell.highTicks);
  return low === high || cell.readings === 1 ? low : `${low} – ${high}`;
}

function pointLine(point: ReadingTable['points'][number], formats: Formats): string {
  const { firstAtMs, lastAtMs, lowestTicks, highestTicks } = point;
  const span = firstAtMs === null || lastAtMs === null ? '' : text.span(formats.longMoment(firstAtMs), formats.longMoment(lastAtMs));
  const range = lowestTicks === null || highestTicks === null ? '' : text.range(formats.temperature(lowestTicks), formats.temperature(highestTicks));
  return text.point(point.name, point.readings, span, range, point.digest);
}
