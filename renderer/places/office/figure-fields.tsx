import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { FigureChange } from '../../../app/contract/requests/limits-office.ts';
import type { SetInfo } from '../../../app/contract/requests/limits.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { words } from '../../words/words.ts';
import { changesOf, figureLabel, figureText, figureVerdict, type TypedFigures } from './set-draft.ts';

const text = words.office.limitsPages;

interface FigureFieldsProps {
  readonly set: SetInfo;
  readonly figures: Output<'limits.own'>['figures'];
  onTake(changes: readonly FigureChange[]): void;
}

/** One limit of the set with its figures; what is typed is called stricter or looser at once. */
export function FigureFields({ set, figures, onTake }: FigureFieldsProps): ReactNode {
  const [checkId, setCheckId] = useState('');
  const [typed, setTyped] = useState<TypedFigures>({});
  const changeable = set.checks.filter((check) => figures.some((one) => one.checkId === check.checkId));
  const chosen = figures.find((one) => one.checkId === checkId)?.figures ?? [];
  const changes = changesOf(checkId, chosen, typed);
  const isBad = chosen.some((figure) => figureVerdict(figure, typed[figure.field] ?? '') === 'bad');
  const take = (): void => {
    onTake(changes);
    setCheckId('');
    setTyped({});
  };
  return (
    <div className="stack">
      <h3>{text.checks}</h3>
      <Pick
        label={text.pickCheck} value={checkId} empty={text.chooseCheck}
        choices={changeable.map((check) => ({ id: check.checkId, text: `${check.title} (${check.checkId})` }))}
        onChange={(id) => { setCheckId(id); setTyped({}); }}
      />
      {chosen.length === 0 ? null : (
        <>
          <div className="form-grid">
            {chosen.map((figure) => {
              const value = typed[figure.field] ?? '';
              const verdict = figureVerdict(figure, value);
              return (
                <Field
                  key={figure.field} kind="figure" label={figureLabel(figure.field)} unit={text.units[figure.unit]} value={value}
                  help={verdict === null || verdict === 'bad' ? text.published(figureText(figure)) : text.verdicts[verdict]}
                  fault={verdict === 'bad' ? text.verdicts.bad : null}
                  onChange={(next) => setTyped({ ...typed, [figure.field]: next })}
                />
              );
            })}
          </div>
          <div><PressButton isDisabled={isBad || changes.length === 0} onPress={take}>{text.take}</PressButton></div>
        </>
      )}
    </div>
  );
}
