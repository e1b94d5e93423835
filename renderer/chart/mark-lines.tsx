import type { ReactNode } from 'react';
import { usePlotArea, useXAxisDomain } from 'recharts';
import { placeMarks, type ChartMark } from './chart-model.ts';

/** In, end of smoking, out, cooled: an upright line each, its word beside it, never one word over another. */
export function MarkLines({ marks }: { readonly marks: readonly ChartMark[] }): ReactNode {
  const area = usePlotArea();
  const across = useXAxisDomain();
  const from = Number(across?.[0]);
  const to = Number(across?.[1]);
  if (area === undefined || !Number.isFinite(to - from)) return null;
  const placed = placeMarks(marks.filter((mark) => mark.atMs >= from && mark.atMs <= to), (atMs) => area.x + ((atMs - from) / (to - from)) * area.width, area.x + area.width);
  return (
    <g className="mark-lines">
      {placed.map((mark) => (
        <g key={mark.text + mark.x}>
          <path d={`M${mark.x} ${area.y}v${area.height}`} stroke="var(--ink)" strokeWidth="1.2" />
          <text x={mark.textX} y={area.y + 16 + mark.row * 20} textAnchor={mark.anchor}>{mark.text}</text>
        </g>
      ))}
    </g>
  );
}
