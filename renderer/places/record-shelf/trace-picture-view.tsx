import { useMemo, type ReactNode } from 'react';
import type { TraceNode } from '../../../app/contract/requests/trace.ts';
import { BOX_HEIGHT, BOX_WIDTH, layOutTrace, type PictureBox, type PictureEdge } from '../../../app/packs/trace-picture.ts';
import { words } from '../../words/words.ts';

const text = words.trace;
/** As many letters as a box is wide. */
const MOST_LETTERS = 17;

/** The trace from source to hand; whatever is cut short in a box stands in full in the list. */
export function TracePictureView({ nodes, edges }: { readonly nodes: readonly TraceNode[]; readonly edges: readonly PictureEdge[] }): ReactNode {
  const picture = useMemo(() => layOutTrace(nodes, edges), [nodes, edges]);
  const facts = useMemo(() => new Map(nodes.map((node) => [node.key, node.facts[0] ?? ''])), [nodes]);
  return (
    <div className="trace-picture sheet" role="region" aria-label={text.picture} tabIndex={0}>
      <svg role="img" aria-label={text.picture} width={picture.width} height={picture.height} viewBox={`-2 0 ${picture.width + 4} ${picture.height}`}>
        {picture.columns.map(({ column, x }) => <text key={column} className="trace-head" x={x} y={16}>{text.columns[column]}</text>)}
        {picture.lines.map(({ key, path }) => <path key={key} className="trace-line" d={path} />)}
        {picture.boxes.map((box) => <Box key={box.key} box={box} detail={box.nodes.length > 1 ? rangeOf(box) : (facts.get(box.key) ?? '')} />)}
      </svg>
    </div>
  );
}

function Box({ box, detail }: { readonly box: PictureBox; readonly detail: string }): ReactNode {
  const [first] = box.nodes;
  const title = box.nodes.length > 1 ? (first?.kind === 'pack' ? text.packsOf : text.thermometersOf)(box.nodes.length) : (first?.title ?? '');
  return (
    <g className={`trace-box ${first?.side ?? ''}`}>
      <rect x={box.x} y={box.y} width={BOX_WIDTH} height={BOX_HEIGHT} rx={8} />
      <text className="trace-title" x={box.x + 10} y={box.y + 22}>{cut(title)}</text>
      <text className="trace-detail" x={box.x + 10} y={box.y + 42}>{cut(detail)}</text>
    </g>
  );
}

/** Packs by their numbers alone, since the lot stands in the batch’s box; thermometers by their names. */
function rangeOf({ nodes }: PictureBox): string {
  if (nodes[0]?.kind !== 'pack') return nodes.map(({ title }) => title).join(', ');
  const numbers = nodes.map(({ title }) => title.split('-').at(-1) ?? title);
  return text.packRange(numbers[0] ?? '', numbers.at(-1) ?? '');
}

function cut(whole: string): string {
  const letters = [...whole];
  return letters.length <= MOST_LETTERS ? whole : `${letters.slice(0, MOST_LETTERS - 1).join('')}…`;
}
