import type { ReactNode } from 'react';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import type { ChartSeries } from './chart-model.ts';

const MOST_ROWS = 400;

/** The chart as a table: each moment a row, each point a column, newest first. */
export function SeriesTable({ series }: { readonly series: readonly ChartSeries[] }): ReactNode {
  const formats = useFormats();
  const moments = [...new Set(series.flatMap((each) => [...each.atMs]))].sort((a, b) => b - a);
  const values = series.map((each) => new Map([...each.atMs].map((atMs, index) => [atMs, each.ticks[index] ?? 0])));
  return (
    <div className="table-scroll" tabIndex={0} role="region" aria-label={words.smokehouse.chart.asTable}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.smokehouse.chart.time}</th>
            {series.map((each) => <th key={each.pointId} scope="col" className="right">{each.name}, {formats.degreeSign}</th>)}
          </tr>
        </thead>
        <tbody>
          {moments.slice(0, MOST_ROWS).map((atMs) => (
            <tr key={atMs}>
              <th scope="row" className="number">{formats.moment(atMs)}</th>
              {values.map((value, index) => {
                const ticks = value.get(atMs);
                return <td key={series[index]?.pointId} className="number right">{ticks === undefined ? '' : formats.degrees(ticks)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
      {moments.length > MOST_ROWS ? <p className="soft">{words.smokehouse.chart.tableCut(MOST_ROWS, moments.length)}</p> : null}
    </div>
  );
}
