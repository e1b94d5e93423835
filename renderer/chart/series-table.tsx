import type { ReactNode } from 'react';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import type { Line } from './chart-model.ts';
import type { TimeSpan } from './chart-view.ts';

const MOST_ROWS = 400;

/** The chart as a table: each moment a row, each point a column, newest first. */
export function SeriesTable({ lines, span }: { readonly lines: readonly Line[]; readonly span: TimeSpan }): ReactNode {
  const formats = useFormats();
  const moments = [...new Set(lines.flatMap((each) => [...each.atMs]))].filter((atMs) => atMs >= span.fromMs && atMs <= span.toMs).sort((a, b) => b - a);
  const values = lines.map((each) => new Map([...each.atMs].map((atMs, index) => [atMs, each.ticks[index] ?? 0])));
  return (
    <div className="table-scroll" tabIndex={0} role="region" aria-label={words.smokehouse.chart.asTable}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.smokehouse.chart.time}</th>
            {lines.map((each) => <th key={each.pointId} scope="col" className="right">{each.name}, {formats.degreeSign}</th>)}
          </tr>
        </thead>
        <tbody>
          {moments.slice(0, MOST_ROWS).map((atMs) => (
            <tr key={atMs}>
              <th scope="row" className="number">{formats.moment(atMs)}</th>
              {values.map((value, index) => {
                const ticks = value.get(atMs);
                return <td key={lines[index]?.pointId} className="number right">{ticks === undefined ? '' : formats.degrees(ticks)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
      {moments.length > MOST_ROWS ? <p className="soft">{words.smokehouse.chart.tableCut(MOST_ROWS, moments.length)}</p> : null}
    </div>
  );
}
