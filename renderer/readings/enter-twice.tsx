import type { ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import type { Point } from '../../app/contract/requests/smokehouse.ts';
import { words } from '../words/words.ts';

const quick = words.paper.entry;

/** What somebody else had typed for that minute: on another screen, or from the same sheet. */
export function TypedTwice({ answer, points }: { readonly answer: Output<'readings.enter'>; readonly points: readonly Point[] }): ReactNode {
  const { already = 0, beside = [] } = answer;
  if (already === 0 && beside.length === 0) return null;
  return (
    <div className="note caution" role="alert">
      {already === 0 ? null : <p>{quick.already(already)}</p>}
      {beside.map(({ pointId, text, unit }) => <p key={`${pointId} ${text}`}>{quick.beside(points.find((point) => point.id === pointId)?.name ?? '', `${text} °${unit}`)}</p>)}
    </div>
  );
}
