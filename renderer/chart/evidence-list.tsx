import type { ReactNode } from 'react';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import type { Lane } from './evidence-lanes.ts';

const text = words.smokehouse.chart;

/** The spans of the chosen sentence in words: which count, and why the others don't. */
export function EvidenceList({ lane }: { readonly lane: Lane | undefined }): ReactNode {
  const formats = useFormats();
  if (lane === undefined) return null;
  return (
    <div className="note evidence-list" role="status">
      <p className="strong">{text.sentence(lane.number, lane.title)}</p>
      <ul>
        {lane.rows.flatMap((row) => row.spans.map((span) => (
          <li key={`${row.name}${span.fromMs}${span.toMs}${span.why}`}>
            <b>{span.counts ? text.counts : text.countsNot}</b> {row.name} <span className="number">{text.fromTo(formats.moment(span.fromMs), formats.clock(span.toMs))}</span>: {span.why}
          </li>
        )))}
      </ul>
    </div>
  );
}
