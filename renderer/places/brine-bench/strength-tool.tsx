import { useState, type ReactNode } from 'react';
import { STEM_SCALES, TRADE_FORMS, type TradeForm } from '../../../app/brine/forms.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats, type Formats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { emptyStrength, workOut, type StrengthDraft, type StrengthFound } from './strength-draft.ts';

const bench = words.brineBench;
const text = bench.strengthTool;
/** As many decimals as the trade writes. */
const DECIMALS: Readonly<Record<TradeForm, number>> = {
  percentByWeight: 2, salometerDegrees: 1, specificGravity60F: 4, baumeDegrees: 2, gramsPerLitreWater: 1, gramsPerLitreBrine: 1, poundsPerUsGallonWater: 3, poundsPerUsGallonBrine: 3,
};

/** The converter: one strength or one reading in, every form of it out, worked out as it is typed. */
export function StrengthTool(): ReactNode {
  const { kitchen } = useKitchen();
  const [draft, setDraft] = useState<StrengthDraft>(() => emptyStrength(kitchen.temperatureUnit));
  const answer = workOut(draft, kitchen.temperatureUnit);
  const problem = answer === null || answer.ok ? null : answer.problem;
  const faultAt = (field: string): string | null => (problem?.field === field ? [problem.message, problem.remedy].filter((part) => part !== undefined).join(' ') : null);
  const change = (part: Partial<StrengthDraft>): void => setDraft({ ...draft, ...part });
  return (
    <>
      <div>
        <h1>{text.title}</h1>
        <p className="soft">{text.lead}</p>
      </div>
      <div className="halves">
        <section className="sheet stack">
          <Choices label={text.known} value={draft.by} choices={[{ id: 'figure', text: text.kinds.figure }, { id: 'reading', text: text.kinds.reading }]} onChange={(by) => change({ by })} />
          {draft.by === 'figure'
            ? <Pick label={text.form} value={draft.form} choices={TRADE_FORMS.map((id) => ({ id, text: text.forms[id] }))} onChange={(id) => change({ form: TRADE_FORMS.find((form) => form === id) ?? draft.form })} />
            : <Choices label={text.stem} value={draft.stem} choices={STEM_SCALES.map((id) => ({ id, text: text.stems[id] }))} onChange={(stem) => change({ stem })} />}
          <div className="form-grid">
            <Field label={text.figure} kind="figure" value={draft.figure} autoFocus fault={faultAt('figure')} onChange={(figure) => change({ figure })} />
            <Field label={text.temperature} kind="figure" unit={`°${kitchen.temperatureUnit}`} value={draft.temperature} fault={faultAt('temperature')} onChange={(temperature) => change({ temperature })} />
            <Field label={text.sugar} kind="figure" unit="%" value={draft.sugar} fault={faultAt('sugar')} onChange={(sugar) => change({ sugar })} />
          </div>
          <p className="help">{text.saltInWater}</p>
        </section>
        <section className="sheet stack" aria-live="polite">
          {answer?.ok === true ? <Found found={answer.value} draft={draft} /> : <p className="soft">{text.waits}</p>}
        </section>
      </div>
    </>
  );
}

function Found({ found, draft }: { readonly found: StrengthFound; readonly draft: StrengthDraft }): ReactNode {
  const formats = useFormats();
  const { tub } = found;
  const at = `${draft.temperature.trim()} ${formats.degreeSign}`;
  return (
    <>
      <h2>{text.all}</h2>
      {draft.by === 'reading' ? <p className="strong">{text.readingMeans(found.percent.toFixed(2))}</p> : null}
      <table className="forms">
        <tbody>
          <Row name={text.forms.percentByWeight} figure={found.percent.toFixed(DECIMALS.percentByWeight)} />
          <Row name={text.waterPhase} figure={tub.waterPhasePercent.toFixed(2)} />
          {TRADE_FORMS.filter((form) => form !== 'percentByWeight').map((form) => <Row key={form} name={text.forms[form]} figure={found.forms[form].toFixed(DECIMALS[form])} />)}
          <Row name={text.density(at)} figure={(tub.densityKgPerM3 / 1000).toFixed(4)} />
          <Row name={text.float(at)} figure={tub.float.kind === 'shows' ? tub.float.degrees.toFixed(1) : text.offScale} />
        </tbody>
      </table>
      <p className="soft">{text.at60}</p>
      <p>{firstSolidWords(found, formats)}</p>
      <p className={tub.holdsAll ? '' : 'strong'}>{(tub.holdsAll ? text.holds : text.over)(at, tub.saturatedPercent.toFixed(2))}</p>
      <details className="fold">
        <summary>{text.sources}</summary>
        <ul>{text.sourceList.map((source) => <li key={source}>{source}</li>)}</ul>
      </details>
    </>
  );
}

function Row({ name, figure }: { readonly name: string; readonly figure: string }): ReactNode {
  return (
    <tr>
      <td className="number figure">{figure}</td>
      <th scope="row">{name}</th>
    </tr>
  );
}

function firstSolidWords({ tub }: StrengthFound, formats: Formats): string {
  const temperature = formats.temperature(Math.round(tub.firstSolid.celsius * TICKS_PER_CELSIUS));
  return tub.firstSolid.kind === 'ice' ? text.freezes(temperature) : text.falls(temperature);
}
