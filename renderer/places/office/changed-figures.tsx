import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { FigureChange } from '../../../app/contract/requests/limits-office.ts';
import { PressButton } from '../../parts/button.tsx';
import { words } from '../../words/words.ts';
import { figureLabel, figureText, figureVerdict } from './set-draft.ts';

const text = words.office.limitsPages;

interface ChangedFiguresProps {
  readonly changes: readonly FigureChange[];
  readonly figures: Output<'limits.own'>['figures'];
  readonly fault: string | null;
  onDrop(checkId: string): void;
}

/** The figures taken in so far, limit by limit, each stricter or looser than published. */
export function ChangedFigures({ changes, figures, fault, onDrop }: ChangedFiguresProps): ReactNode {
  if (changes.length === 0) return null;
  const checkIds = [...new Set(changes.map((change) => change.checkId))];
  return (
    <div className="stack">
      <h3>{text.changes}</h3>
      {checkIds.map((checkId) => (
        <div key={checkId} className="limit-row">
          <div>
            <p className="number">{checkId}</p>
            <ul>{changes.filter((change) => change.checkId === checkId).map((change) => <li key={change.field}>{changeWords(change, figures)}</li>)}</ul>
          </div>
          <PressButton look="quiet" label={text.drop(checkId)} onPress={() => onDrop(checkId)}>{words.parts.remove}</PressButton>
        </div>
      ))}
      {fault === null ? null : <p className="fault">{fault}</p>}
    </div>
  );
}

function changeWords(change: FigureChange, figures: Output<'limits.own'>['figures']): string {
  const figure = figures.find((one) => one.checkId === change.checkId)?.figures.find((one) => one.field === change.field);
  if (figure === undefined || change.value === undefined) return '';
  const verdict = figureVerdict(figure, change.value);
  const way = verdict === null ? '' : text.verdicts[verdict];
  return `${figureLabel(figure.field)}: ${figureText({ ...figure, value: change.value })} (${text.published(figureText(figure))}). ${way}`;
}
