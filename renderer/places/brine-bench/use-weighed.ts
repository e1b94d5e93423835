import { useState } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { readWeighed, weighKey, writeWeighed } from './weigh-state.ts';

export interface Weighed {
  readonly ids: ReadonlySet<string>;
  set(ingredientId: string, isWeighed: boolean): void;
}

/** The ticks of a batch's card. They outlast the page, not the window: tomorrow's tub is weighed anew. */
export function useWeighed(batch: Batch): Weighed {
  const key = weighKey(batch);
  const [kept, setKept] = useState<{ readonly key: string; readonly text: string | null }>({ key, text: window.sessionStorage.getItem(key) });
  const text = kept.key === key ? kept.text : window.sessionStorage.getItem(key);
  const ids = readWeighed(text, batch.card.lines.map((line) => line.ingredientId));
  return {
    ids,
    set: (ingredientId, isWeighed) => {
      const next = new Set(ids);
      if (isWeighed) next.add(ingredientId);
      else next.delete(ingredientId);
      window.sessionStorage.setItem(key, writeWeighed(next));
      setKept({ key, text: writeWeighed(next) });
    },
  };
}
