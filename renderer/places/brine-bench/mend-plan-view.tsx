import type { ReactNode } from 'react';
import type { Mend } from '../../../app/contract/requests/brine-bench.ts';
import type { MendPlan } from '../../../app/contract/requests/tub.ts';
import { strengthWords } from '../../parts/brine-words.ts';
import { scaleGrams, useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

const text = words.brineBench.mend;

/** What to do, in order, what the brine is then, and what it voids. */
export function MendPlanView({ plan }: { readonly plan: MendPlan }): ReactNode {
  return (
    <>
      <div>
        <h2>{text.planTitle}</h2>
        <ol className="mend-steps">{plan.steps.map((step) => <li key={step.text}>{step.text}</li>)}</ol>
      </div>
      <dl className="before-after">
        <dt>{text.before}</dt>
        <dd><BrineThen then={plan.before} /></dd>
        <dt>{text.after}</dt>
        <dd className="strong"><BrineThen then={plan.after} /></dd>
      </dl>
      {plan.cautions.length === 0 ? null : <div className="note caution stack">{plan.cautions.map((caution) => <p key={caution}>{caution}</p>)}</div>}
      <Voids voids={plan.voids} />
    </>
  );
}

/** A brine that was mended: when, by whom, what was done and what it was before. */
export function MendedNote({ mends }: { readonly mends: readonly Mend[] }): ReactNode {
  const formats = useFormats();
  if (mends.length === 0) return null;
  return (
    <section className="sheet stack" aria-label={text.mendedTitle}>
      <h2>{text.mendedTitle}</h2>
      {mends.map((mend) => (
        <div key={mend.id}>
          <p>
            <span className="strong">{text.mended(formats.moment(mend.atMs), mend.initials, text.kinds[mend.kind])}</span>:{' '}
            {text.was(`${strengthWords(mend.before)}, ${scaleWords(mend.before.totalGrams)}`, `${strengthWords(mend.after)}, ${scaleWords(mend.after.totalGrams)}`)}
          </p>
          <details className="fold">
            <summary>{text.whatWasDone}</summary>
            <ol>{mend.steps.map((step) => <li key={step.text}>{step.text}</li>)}</ol>
            <Voids voids={mend.voids} />
          </details>
        </div>
      ))}
    </section>
  );
}

function Voids({ voids }: { readonly voids: readonly string[] }): ReactNode {
  if (voids.length === 0) return <p className="soft">{text.voidsNothing}</p>;
  return (
    <div>
      <h3>{text.voids}</h3>
      <ul>{voids.map((each) => <li key={each}>{each}</li>)}</ul>
    </div>
  );
}

function BrineThen({ then }: { readonly then: MendPlan['before'] }): ReactNode {
  const float = then.floatShowsDegrees === null ? text.noFloat : text.float(then.floatShowsDegrees.toFixed(0));
  return <>{strengthWords(then)}; {float}; {text.grams(scaleWords(then.totalGrams))}</>;
}

/** As the card's scale shows it, so that the two can be compared. */
function scaleWords(grams: number): string {
  const { figure, unit } = scaleGrams(grams);
  return `${figure} ${unit}`;
}
