import type { ReactNode } from 'react';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { words } from '../../words/words.ts';

const text = words.brineBench;
const WIDTH = 348;

/** How strong the brine is, what a float will show in it, and the estimate of the finished fish: no colour of a verdict here. */
export function Strength({ card }: { readonly card: BrineCard }): ReactNode {
  const { finishedEstimate: finished } = card;
  return (
    <>
      <section className="sheet stack">
        <h2>{text.strength}</h2>
        <p>
          <span className="number strength-figure">{card.salometerDegrees.toFixed(1)}</span> {text.salometer}{' '}
          <span className="number strength-second">{card.percentByWeight.toFixed(2)} %</span> {text.byWeight}
        </p>
        <svg viewBox="0 0 356 54" role="img" aria-label={`${card.salometerDegrees.toFixed(1)} ${text.salometer}`}>
          <path d="M4 20h348" stroke="var(--rule)" strokeWidth="12" />
          <path d={`M4 20h${Math.min(WIDTH, card.salometerDegrees / 100 * WIDTH)}`} stroke="var(--lake)" strokeWidth="12" />
          <path d={`M${4 + Math.min(100, card.floatShowsDegrees) / 100 * WIDTH} 10v20`} stroke="var(--ink)" strokeWidth="2.4" />
          {[0, 20, 40, 60, 80, 100].map((degree) => (
            <text key={degree} className="number scale-text" x={4 + degree * 3.48} y="50" textAnchor={degree === 0 ? 'start' : degree === 100 ? 'end' : 'middle'}>{degree}</text>
          ))}
        </svg>
        <p className="strong">{text.float(card.floatShowsDegrees.toFixed(0))}</p>
        <p className="soft small">{text.waterPhase(card.waterPhasePercent.toFixed(2))}</p>
      </section>
      <section className="sheet">
        <h2>{text.estimate}</h2>
        <p className="soft">{text.estimateText(finished.percent.toFixed(1), finished.low.toFixed(1), finished.high.toFixed(1), finished.yieldPercent.toFixed(0))}</p>
      </section>
    </>
  );
}
