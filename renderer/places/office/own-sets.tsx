import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { SetInfo } from '../../../app/contract/requests/limits.ts';
import type { OwnSet } from '../../../app/contract/requests/limits-office.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { dayInWords } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

const office = words.office;
const text = office.limitsPages;

interface OwnSetsProps {
  readonly own: Output<'limits.own'>;
  readonly sets: readonly SetInfo[];
}

/** Every version of the kitchen's own sets with what it changes. */
export function OwnSets({ own, sets }: OwnSetsProps): ReactNode {
  const papers = useAsk('paper.list', {}).data?.papers ?? [];
  const groundOf = ({ paperId }: OwnSet): string => {
    const paper = papers.find((one) => one.id === paperId);
    return paper === undefined ? text.byOwnRule : text.byLetter(paper.what, paper.number);
  };
  const isLatest = (set: OwnSet): boolean => own.sets.findLast((one) => one.name.toLowerCase() === set.name.toLowerCase())?.setId === set.setId;
  return (
    <section className="sheet stack">
      <h2>{text.own}</h2>
      <p className="soft">{text.ownLead}</p>
      {own.sets.length === 0 ? <p>{text.noOwn}</p> : null}
      {own.sets.map((set) => (
        <div key={set.setId} className="limit-row">
          <div>
            <p>
              <b>{set.name}</b>, {office.version(set.version)}, {text.from(dayInWords(set.effectiveFrom))}{' '}
              <span className="soft">{text.madeFrom(sets.find((one) => one.setId === set.baseSetId)?.name ?? set.baseSetId)}, {groundOf(set)}</span>
            </p>
            <ul>
              {set.changes.map((change) => (
                <li key={change.checkId}>{text.change(change.checkId, change.is, change.was)} <b>{change.stricter ? text.stricter : text.looser}</b></li>
              ))}
            </ul>
          </div>
          {isLatest(set) ? <a className="set-link" aria-label={text.nextOf(set.name)} href={`${addressOf('office', 'limits', 'next')}?from=${encodeURIComponent(set.setId)}`}>{text.next}</a> : null}
        </div>
      ))}
      <a className="set-link" href={addressOf('office', 'limits', 'new')}>{text.addOwn}</a>
    </section>
  );
}
