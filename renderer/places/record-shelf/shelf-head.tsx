import type { ReactNode } from 'react';
import { addressOf } from '../../frame/address.ts';
import { words } from '../../words/words.ts';

const text = words.trace.links;
const PAGES = { batches: [], recalls: ['recalls'], exports: ['export'] } as const;

interface HeadProps {
  readonly title: string;
  readonly lead: string | null;
  /** Which of the shelf's own pages this is; null: one further on. */
  readonly here: keyof typeof PAGES | null;
}

/** The head of each page of the shelf, with the way to the others. */
export function ShelfHead({ title, lead, here }: HeadProps): ReactNode {
  return (
    <div className="spread">
      <div>
        <h1>{title}</h1>
        {lead === null ? null : <p className="soft">{lead}</p>}
      </div>
      <ShelfLinks here={here} />
    </div>
  );
}

function ShelfLinks({ here }: Pick<HeadProps, 'here'>): ReactNode {
  return (
    <nav className="page-links" aria-label={text.label}>
      {(['batches', 'recalls', 'exports'] as const).map((page) => (
        <a key={page} href={addressOf('record-shelf', ...PAGES[page])} aria-current={page === here ? 'page' : undefined}>{text[page]}</a>
      ))}
    </nav>
  );
}
