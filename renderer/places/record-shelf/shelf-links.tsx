import type { ReactNode } from 'react';
import { addressOf } from '../../frame/address.ts';
import { words } from '../../words/words.ts';

const text = words.trace.links;
const PAGES = { batches: [], recalls: ['recalls'], exports: ['export'] } as const;

/** The shelf's own pages. */
export function ShelfLinks({ here }: { readonly here: keyof typeof PAGES | null }): ReactNode {
  return (
    <nav className="page-links" aria-label={text.label}>
      {(['batches', 'recalls', 'exports'] as const).map((page) => (
        <a key={page} href={addressOf('record-shelf', ...PAGES[page])} aria-current={page === here ? 'page' : undefined}>{text[page]}</a>
      ))}
    </nav>
  );
}
