import type { ReactNode } from 'react';
import type { CheckResultWire, SetResultWire } from '../../app/contract/requests/verdict.ts';
import { words } from '../words/words.ts';
import { useFormats } from './format.ts';
import { VerdictShape } from './verdict-shape.tsx';

const text = words.verdict;

interface CheckListProps {
  readonly result: SetResultWire;
  /** A check the person tapped, so that the chart can show its spans. */
  readonly chosen?: string | null;
  onChoose?(checkId: string): void;
}

/** Every check of a set with its shape, its word, its reason and its source. Checks that don't apply are left out. */
export function CheckList({ result, chosen = null, onChoose }: CheckListProps): ReactNode {
  return (
    <div>
      {result.checks.filter((check) => check.verdict !== 'does-not-apply').map((check) => (
        <div className="verdict" key={check.checkId}>
          <VerdictShape verdict={check.verdict} />
          <div>
            {onChoose === undefined ? <CheckHead check={check} /> : (
              <button type="button" className="check-button" aria-pressed={check.checkId === chosen} onClick={() => onChoose(check.checkId)}><CheckHead check={check} /></button>
            )}
            <p className="small">{check.reason}</p>
            {check.needed === '' ? null : <p className="small strong">{check.needed}</p>}
            <CheckSource check={check} />
          </div>
        </div>
      ))}
      {result.notJudgedHere.length === 0 ? null : <p className="soft small">{text.notJudged(result.notJudgedHere.join(', '))}</p>}
    </div>
  );
}

function CheckHead({ check }: { readonly check: CheckResultWire }): ReactNode {
  return <span className="strong">{check.title}: {text.names[check.verdict]}</span>;
}

/** Where the figure comes from, and whether this kitchen has confirmed it. */
export function CheckSource({ check }: { readonly check: Pick<CheckResultWire, 'source' | 'mark' | 'confirmation'> }): ReactNode {
  const formats = useFormats();
  const doubtful = check.mark === 'from memory' || check.mark === 'second-hand';
  return (
    <p className="soft small">
      {text.source}: {check.source} ({text.mark[check.mark]}).{' '}
      {check.confirmation === null
        ? (doubtful ? text.notConfirmed : '')
        : text.confirmedBy(check.confirmation.initials, check.confirmation.document, formats.day(check.confirmation.atMs))}
    </p>
  );
}
