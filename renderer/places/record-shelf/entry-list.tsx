import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

const text = words.recordShelf;

/** Every entry about the batch, in the order it was entered, and whether the chain holds. */
export function EntryList({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const formats = useFormats();
  const { entries, chain } = record;
  return (
    <section className="sheet stack">
      <h2>{text.entries}</h2>
      <p className={chain.intact ? 'soft' : 'fault'}>{text.chain(chain.entries, chain.intact)}</p>
      <ol className="entries">
        {entries.map((entry) => (
          <li key={entry.id}>
            <span className="strong">{entry.summary}</span> {entry.why}
            <span className="soft small">
              {' '}{text.entry(entry.sequence, formats.longMoment(entry.enteredAtMs), entry.person)}
              {entry.happenedAtMs === null || entry.happenedAtMs === entry.enteredAtMs ? '' : `; ${text.happened(formats.longMoment(entry.happenedAtMs))}`}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
