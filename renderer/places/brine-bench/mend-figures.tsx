import type { ReactNode } from 'react';
import type { Failure } from '../../../app/contract/envelope.ts';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import type { Ingredient } from '../../../app/contract/requests/recipes.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import type { MendDraft, TroubleKind } from './mend-draft.ts';

const text = words.brineBench.mend;

interface FiguresProps {
  readonly batch: Batch;
  readonly kind: TroubleKind;
  readonly draft: MendDraft;
  readonly failure: Failure | null;
  onChange(change: Partial<MendDraft>): void;
}

/** The one or two figures that a trouble needs. */
export function MendFigures(props: FiguresProps): ReactNode {
  const { kitchen } = useKitchen();
  const { kind, draft, failure, onChange } = props;
  switch (kind) {
    case 'too-strong':
    case 'too-weak':
      return <Measured {...props} />;
    case 'spilled':
      return <Field label={text.left} kind="figure" unit={kitchen.massUnit} value={draft.left} fault={faultAt(failure, 'left')} onChange={(left) => onChange({ left })} />;
    case 'ran-out':
      return <RanOut {...props} />;
    case 'wrong-salt':
      return <WrongSalt {...props} />;
    case 'too-salty':
      return (
        <div className="form-grid">
          <Field label={text.tested} kind="figure" unit="%" value={draft.tested} fault={faultAt(failure, 'testedPercent')} onChange={(tested) => onChange({ tested })} />
          <Field label={text.wanted} kind="figure" unit="%" value={draft.wanted} fault={faultAt(failure, 'wantedPercent')} onChange={(wanted) => onChange({ wanted })} />
        </div>
      );
  }
}

function faultAt(failure: Failure | null, field: string): string | null {
  return faultOf(failure, `trouble.${field}.text`) ?? faultOf(failure, `trouble.${field}`);
}

function Measured({ draft, failure, onChange }: FiguresProps): ReactNode {
  const { kitchen } = useKitchen();
  return (
    <>
      <Choices label={text.measuredBy} value={draft.measuredBy} choices={[{ id: 'float', text: text.measures.float }, { id: 'percent', text: text.measures.percent }]} onChange={(measuredBy) => onChange({ measuredBy })} />
      {draft.measuredBy === 'percent' ? (
        <Field label={text.percent} kind="figure" unit="%" value={draft.percent} fault={faultAt(failure, 'measured.percent')} onChange={(percent) => onChange({ percent })} />
      ) : (
        <div className="form-grid">
          <Field label={text.floatShows} kind="figure" unit={words.brineBench.salometer} value={draft.degrees} fault={faultAt(failure, 'measured.degrees')} onChange={(degrees) => onChange({ degrees })} />
          <Field label={text.brineTemperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={draft.brine} fault={faultAt(failure, 'measured.brine')} onChange={(brine) => onChange({ brine })} />
        </div>
      )}
    </>
  );
}

function RanOut({ batch, draft, failure, onChange }: FiguresProps): ReactNode {
  const all = useIngredients();
  return (
    <div className="form-grid">
      <Pick label={text.ranOutOf} value={draft.ingredientId} empty={text.choose} choices={batch.card.lines.map((line) => ({ id: line.ingredientId, text: line.name }))} fault={faultAt(failure, 'ingredientId')} onChange={(ingredientId) => onChange({ ingredientId })} />
      <Field label={text.there} kind="figure" unit="g" value={draft.there} fault={faultAt(failure, 'there')} onChange={(there) => onChange({ there })} />
      <Pick label={text.instead} value={draft.insteadId} empty={text.nothing} choices={all.filter((one) => one.id !== draft.ingredientId).map((one) => ({ id: one.id, text: one.name }))} fault={faultAt(failure, 'insteadId')} onChange={(insteadId) => onChange({ insteadId })} />
    </div>
  );
}

/** Only what is salt and comes in several crystals can be the wrong one. */
function WrongSalt({ batch, draft, failure, onChange }: FiguresProps): ReactNode {
  const all = useIngredients();
  const salts = batch.card.lines.flatMap((line) => all.filter((one) => one.id === line.ingredientId && one.forms.length > 1 && one.saltPercent > 50));
  const chosen = salts.find((one) => one.id === draft.ingredientId) ?? (salts.length === 1 ? salts[0] : undefined);
  const forms = (chosen?.forms ?? []).map((form) => ({ id: form.id, text: form.name }));
  const pick = (part: Partial<MendDraft>): void => onChange({ ...part, ...(chosen === undefined ? {} : { ingredientId: chosen.id }) });
  return (
    <div className="form-grid">
      {salts.length > 1 ? <Pick label={text.whichSalt} value={draft.ingredientId} empty={text.choose} choices={salts.map((one) => ({ id: one.id, text: one.name }))} fault={faultAt(failure, 'ingredientId')} onChange={(ingredientId) => onChange({ ingredientId, meantFormId: '', usedFormId: '' })} /> : null}
      <Pick label={text.meant} value={draft.meantFormId} empty={text.choose} choices={forms} fault={faultAt(failure, 'meantFormId')} onChange={(meantFormId) => pick({ meantFormId })} />
      <Pick label={text.used} value={draft.usedFormId} empty={text.choose} choices={forms} fault={faultAt(failure, 'usedFormId')} onChange={(usedFormId) => pick({ usedFormId })} />
    </div>
  );
}

function useIngredients(): readonly Ingredient[] {
  return useAsk('ingredient.list', {}).data?.ingredients ?? [];
}
