import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { words } from '../../words/words.ts';

/** Under the line of every place but the packing table, which has the list itself: how much is to be done again. */
export function WorkMark(): ReactNode {
  const { place } = useAddress();
  const list = useAsk('worklist.get', {});
  const count = list.data?.items.filter(({ done }) => done === null).length ?? 0;
  if (count === 0 || place === 'packing-table') return null;
  return (
    <ul className="alarm-strip" aria-label={words.worklist.title}>
      <li><a href={addressOf('packing-table')}>{words.worklist.mark(count)}</a></li>
    </ul>
  );
}
