import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import { Duty } from './duty.tsx';
import { addressOf, PLACES, type PlaceName } from './address.ts';

/** Plain line drawings of the work, one a place, drawn for a 32 × 32 field. */
const DRAWINGS: Readonly<Record<PlaceName, string>> = {
  'fish-in': 'M3 22h26M6 22V9h12l6 5v8M6 14h10M27 26c-2 2-4 2-6 0-2 2-4 2-6 0-2 2-4 2-6 0-2 2-4 2-6 0',
  'brine-bench': 'M6 11h20l-2 15H8zM6 11c4 3 7-2 10 0s6 3 10 0M20 7l4-5',
  smokehouse: 'M5 28V13L16 5l11 8v15M5 28h22M11 28v-9h10v9M14 15c-2-3 2-3 0-6M19 15c-2-3 2-3 0-6',
  'packing-table': 'M4 24h24M7 24v4M25 24v4M9 20h14V9H9zM9 13h14M13 16h6',
  'cold-store': 'M16 3v26M5 9l22 14M27 9L5 23M13 5l3 3 3-3M13 27l3-3 3 3',
  'record-shelf': 'M4 27h24M7 27V7h5v20M12 27V10h5v17M18 27l3-19 5 1-3 18',
  office: 'M6 28V4h14l6 6v18zM20 4v6h6M11 16h10M11 21h10',
};

/** The tabs of the book: the place you are in joins the page. */
export function PlacesRail({ place }: { readonly place: PlaceName }): ReactNode {
  return (
    <div className="rail">
      <nav className="tabs" aria-label={words.frame.placesNav}>
        <span className="book-name">{words.frame.bookName}</span>
        {PLACES.map((name) => (
          <a key={name} className="tab" href={addressOf(name)} aria-current={name === place ? 'page' : undefined}>
            <svg viewBox="0 0 32 32" aria-hidden="true"><path d={DRAWINGS[name]} /></svg>
            {words.frame.places[name]}
          </a>
        ))}
      </nav>
      <Duty />
    </div>
  );
}
