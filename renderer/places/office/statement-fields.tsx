import type { ReactNode } from 'react';
import type { Failure } from '../../../app/contract/envelope.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import type { PaperForm } from './paper-draft.ts';

const text = words.office.papersPages;

interface StatementFieldsProps {
  readonly form: PaperForm;
  readonly failure: Failure | null;
  onChange(change: Partial<PaperForm>): void;
}

/** What only a supplier's statement or a film states. */
export function StatementFields({ form, failure, onChange }: StatementFieldsProps): ReactNode {
  const { kitchen } = useKitchen();
  if (form.kind === 'film') {
    return <Field label={text.oxygenRate} kind="figure" unit={text.oxygenUnit} value={form.oxygenRate} fault={faultOf(failure, 'oxygenRate')} onChange={(oxygenRate) => onChange({ oxygenRate })} />;
  }
  if (form.kind !== 'supplier-statement') return null;
  return (
    <>
      <SpeciesNamed species={form.species} fault={faultOf(failure, 'species')} onChange={(species) => onChange({ species })} />
      {form.subject === 'parasites-frozen' ? (
        <div className="form-grid">
          <Field label={text.frozenAt} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={form.frozenAt} fault={faultOf(failure, 'frozen.temperature.text') ?? faultOf(failure, 'frozen')} onChange={(frozenAt) => onChange({ frozenAt })} />
          <Field label={text.frozenHours} kind="figure" unit={text.hours} value={form.frozenHours} fault={faultOf(failure, 'frozen.hours')} onChange={(frozenHours) => onChange({ frozenHours })} />
        </div>
      ) : null}
    </>
  );
}

interface SpeciesNamedProps {
  readonly species: readonly string[];
  readonly fault: string | null;
  onChange(species: readonly string[]): void;
}

function SpeciesNamed({ species, fault, onChange }: SpeciesNamedProps): ReactNode {
  const known = useAsk('fish.species', {}).data?.species ?? [];
  const nameOf = (id: string): string => known.find((one) => one.id === id)?.marketName ?? id;
  return (
    <div className="stack">
      {species.length === 0 ? null : (
        <div className="row">
          <span className="label">{text.species}</span>
          {species.map((id) => (
            <PressButton key={id} look="quiet" label={text.takeOff(nameOf(id))} onPress={() => onChange(species.filter((one) => one !== id))}>{nameOf(id)} ×</PressButton>
          ))}
        </div>
      )}
      <Pick
        label={species.length === 0 ? text.species : text.addSpecies}
        value=""
        empty={text.chooseSpecies}
        fault={fault}
        choices={known.filter((one) => !species.includes(one.id)).map((one) => ({ id: one.id, text: `${one.marketName} (${one.scientificName})` }))}
        onChange={(id) => { if (id !== '') onChange([...species, id]); }}
      />
    </div>
  );
}
