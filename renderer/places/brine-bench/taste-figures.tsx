import type { ReactNode } from 'react';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { scaleGrams, useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import type { TastingView } from './taste-bench.tsx';

const text = words.taste;

/** What the tub is now, and what went into it. */
export function TasteFigures({ view }: { readonly view: TastingView }): ReactNode {
  const { figures } = view;
  return (
    <div className="stack">
      <section className="sheet stack" aria-live="polite">
        <div>
          <h2>{text.strength}</h2>
          <p>
            <span className="number strength-figure">{figures.salometerDegrees.toFixed(1)}</span> {words.brineBench.salometer}
            <span className="number strength-second">{figures.percentByWeight.toFixed(2)} %</span> {text.byWeight}
          </p>
          <p className="soft">{text.waterPhase(figures.waterPhasePercent.toFixed(2))}. {text.sugar(figures.sugarPercent.toFixed(1))}.</p>
        </div>
        {figures.totalGrams === 0 ? null : <p className="strong">{figures.floatShowsDegrees === null ? text.noFloat : text.float(figures.floatShowsDegrees.toFixed(0))}.</p>}
        {figures.floatMeansPercent === null ? null : <p>{text.floatMeans(figures.floatMeansPercent.toFixed(2))}</p>}
        <Predicted view={view} />
        {figures.cautions.length === 0 ? null : (
          <div className="note caution stack">{figures.cautions.map((caution) => <p key={caution}>{caution}</p>)}</div>
        )}
      </section>
      <Additions view={view} />
    </div>
  );
}

function Predicted({ view: { figures } }: { readonly view: TastingView }): ReactNode {
  const { equilibrium, finished } = figures;
  if (equilibrium === null) return null;
  const [one, low, high] = [equilibrium.percent, equilibrium.low, equilibrium.high].map((percent) => percent.toFixed(1));
  return (
    <div>
      <h3>{text.predicted}</h3>
      <p>{text.equilibrium(one ?? '', low ?? '', high ?? '')}</p>
      {finished === null ? null : <p>{text.finished(finished.percent.toFixed(1), finished.low.toFixed(1), finished.high.toFixed(1), finished.yieldPercent.toFixed(0))}</p>}
      <p className="soft small">{text.provesNothing}</p>
    </div>
  );
}

function Additions({ view: { tasting, figures } }: { readonly view: TastingView }): ReactNode {
  const formats = useFormats();
  const strike = useCommand('taste.strike');
  const total = scaleGrams(figures.totalGrams);
  return (
    <section className="sheet stack">
      <h2>{text.additions}</h2>
      {tasting.additions.length === 0 ? <p>{text.empty}</p> : (
        <table className="taste-lines">
          <tbody>
            {tasting.additions.map((addition) => {
              const shown = scaleGrams(addition.grams);
              return (
                <tr key={addition.id} className={addition.struck ? 'struck' : ''}>
                  <th scope="row">{addition.name}</th>
                  <td className="right number big">{shown.figure}</td>
                  <td>{shown.unit}</td>
                  <td className="soft small">{formats.clock(addition.atMs)} {addition.initials}{addition.struck ? `, ${text.struck}` : ''}</td>
                  <td className="right">
                    {addition.struck || tasting.recipeId !== null ? null : (
                      <PressButton look="quiet" label={text.strike(addition.name, `${shown.figure} ${shown.unit}`)} isDisabled={strike.busy} onPress={() => { void strike.send({ tastingId: tasting.id, additionId: addition.id }); }}>{words.parts.strike}</PressButton>
                    )}
                  </td>
                </tr>
              );
            })}
            <tr className="total">
              <th scope="row">{text.inAll}</th>
              <td className="right number big">{total.figure}</td>
              <td>{total.unit}</td>
              <td className="soft small" colSpan={2}>{figures.litres === null ? '' : text.litres(figures.litres.toFixed(2))}</td>
            </tr>
          </tbody>
        </table>
      )}
      <ProblemNote failure={strike.failure} />
      {tasting.floats.length === 0 ? null : (
        <ul>{tasting.floats.map((one) => <li key={one.atMs}>{text.floats(one.shownDegrees.toFixed(1), formats.temperature(one.brineTicks), formats.clock(one.atMs), one.initials)}</li>)}</ul>
      )}
    </section>
  );
}
