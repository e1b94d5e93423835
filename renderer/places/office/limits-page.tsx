import type { ReactNode } from 'react';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { DecidingSets } from './deciding-sets.tsx';
import { LimitSetPage } from './limit-set-page.tsx';
import { OwnSets } from './own-sets.tsx';
import { SetForm } from './set-form.tsx';

const office = words.office;
const text = office.limitsPages;

/** Which sets decide, the kitchen's own, and each set on a page of its own; `new` makes one. */
export function LimitsPage({ page }: { readonly page: string | undefined }): ReactNode {
  const limits = useAsk('limits.list', {});
  const own = useAsk('limits.own', {});
  if (limits.data === undefined || own.data === undefined) return <ProblemNote failure={failureOf(limits.error ?? own.error)} />;
  const { sets } = limits.data;
  if (page === 'new' || page === 'next') return <SetForm sets={sets} own={own.data} />;
  if (page !== undefined) {
    const set = sets.find((one) => one.setId === page);
    return (
      <div className="stack">
        <a className="set-link" href={addressOf('office', 'limits')}>{text.allSets}</a>
        {set === undefined ? <p>{text.gone}</p> : <LimitSetPage set={set} />}
      </div>
    );
  }
  return (
    <div className="stack">
      <DecidingSets sets={sets} decidingFor={own.data.decidingFor} />
      <OwnSets own={own.data} sets={sets} />
      <section className="sheet stack">
        <h2>{text.all}</h2>
        <p className="soft">{office.limitsLead}</p>
        <ul>
          {sets.toSorted((one, other) => Number(other.decides) - Number(one.decides)).map((set) => (
            <li key={set.setId}>
              <a className="set-link" href={addressOf('office', 'limits', set.setId)}>
                <span><b>{set.name}</b>, {office.version(set.version)}: {set.decides ? office.decides : set.mayDecide ? office.mayDecide : office.compareOnly}</span>
              </a>
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
