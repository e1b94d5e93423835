import type { ReactNode } from 'react';
import type { Formats } from '../parts/format.ts';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import { insideOf, nearestOf } from './chart-lines.ts';
import type { Line } from './chart-model.ts';
import type { TimeSpan } from './chart-view.ts';

const text = words.chart;

interface ValuesProps {
  readonly lines: readonly Line[];
  readonly span: TimeSpan;
  readonly cursorMs: number | null;
}

/** The legend: each line with what it reads at the cursor, or its last reading shown. */
export function ChartValues({ lines, span, cursorMs }: ValuesProps): ReactNode {
  const formats = useFormats();
  return (
    <div className="chart-values">
      <span className="soft">{cursorMs === null ? text.last : text.at(formats.moment(cursorMs))}</span>
      <ul>
        {lines.map((line) => {
          const at = positionOf(line, span, cursorMs);
          return (
            <li key={line.pointId}>
              <svg width="26" height="22" viewBox="0 0 26 22" aria-hidden="true">
                {line.badge === '' ? <path d="M2 11h22" stroke={line.colour} strokeWidth="1.8" strokeDasharray="2 4" /> : (
                  <>
                    <circle cx="13" cy="11" r="10" fill={line.colour} />
                    <text className="badge" x="13" y="16.5" textAnchor="middle">{line.badge}</text>
                  </>
                )}
              </svg>
              <span>{line.name}</span>
              <b className="number">{at === null ? text.none : formats.temperature(line.ticks[at] ?? 0)}</b>
              {at === null ? null : <span className="soft number small">{text.readAt(formats.clock(line.atMs[at] ?? 0))}</span>}
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** What a reader hears of the cursor. */
export function sayCursor(lines: readonly Line[], span: TimeSpan, cursorMs: number | null, formats: Formats): string {
  const values = lines.map((line) => {
    const at = positionOf(line, span, cursorMs);
    return text.value(line.name, at === null ? text.none : formats.temperature(line.ticks[at] ?? 0));
  });
  return text.spoken(cursorMs === null ? text.last : formats.moment(cursorMs), values.join(', '));
}

function positionOf(line: Line, span: TimeSpan, cursorMs: number | null): number | null {
  if (cursorMs !== null) return nearestOf(line, cursorMs);
  const { from, end } = insideOf(line, span);
  return end > from ? end - 1 : null;
}
