import type { ReactNode } from 'react';
import type { SetResultWire } from '../../../app/contract/requests/verdict.ts';
import { CheckList } from '../../parts/check-list.tsx';
import { words } from '../../words/words.ts';

/** Other sets, for information: closed until asked for, never beside the deciding words. */
export function OtherSets({ others }: { readonly others: readonly SetResultWire[] }): ReactNode {
  if (others.length === 0) return null;
  return (
    <details>
      <summary className="strong">{words.packingTable.moreSets}</summary>
      <p className="soft">{words.verdict.otherSets}</p>
      {others.map((set) => (
        <details key={set.setId} className="other-set">
          <summary>{set.setName}: {set.words}</summary>
          <CheckList result={set} />
        </details>
      ))}
    </details>
  );
}
