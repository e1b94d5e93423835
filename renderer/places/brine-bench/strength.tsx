import type { ReactNode } from 'react';
import { saltFallsFirst } from '../../../app/brine/freezing.ts';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { FigureButton } from './figure-button.tsx';

const text = words.brineBench;
const WIDTH = 348;

/** How strong the brine is, what a float will show in it, and the estimate of the finished fish: no colour of a verdict here. */
export function Strength({ card }: { readonly card: BrineCard }): ReactNode {
  return (
    <>
      {card.cure === 'dry' ? <DryStrength card={card} /> : <WetStrength card={card} />}
      <Estimate card={card} />
    </>
  );
}

function WetStrength({ card }: { readonly card: BrineCard }): ReactNode {
  const formats = useFormats();
  const [degrees, percent, waterPhase, float] = [card.salometerDegrees.toFixed(1), card.percentByWeight.toFixed(2), card.waterPhasePercent.toFixed(2), card.floatShowsDegrees.toFixed(0)];
  const sugar = card.sugarPercent.toFixed(1);
  const firstSolid = card.firstSolidTicks === null ? null : formats.temperature(card.firstSolidTicks);
  return (
    <section className="sheet stack">
      <div>
        <h2>{text.strength}</h2>
        <p>
          <FigureButton card={card} figure="salometerDegrees" shown={`${degrees} ${text.salometer}`}><span className="number strength-figure">{degrees}</span></FigureButton> {text.salometer}{' '}
          <FigureButton card={card} figure="percentByWeight" shown={`${percent} %`}><span className="number strength-second">{percent} %</span></FigureButton> {text.byWeight}
        </p>
      </div>
      <svg className="salometer-scale" viewBox="0 0 356 54" role="img" aria-label={`${degrees} ${text.salometer}`}>
        <path d="M4 20h348" stroke="var(--rule)" strokeWidth="12" />
        <path d={`M4 20h${Math.min(WIDTH, card.salometerDegrees / 100 * WIDTH)}`} stroke="var(--lake)" strokeWidth="12" />
        <path d={`M${4 + Math.min(100, card.floatShowsDegrees) / 100 * WIDTH} 10v20`} stroke="var(--ink)" strokeWidth="2.4" />
        {[0, 20, 40, 60, 80, 100].map((degree) => (
          <text key={degree} className="number scale-text" x={4 + degree * 3.48} y="50" textAnchor={degree === 0 ? 'start' : degree === 100 ? 'end' : 'middle'}>{degree}</text>
        ))}
      </svg>
      <div>
        <p>{text.floatTitle}: <FigureButton card={card} figure="floatShowsDegrees" shown={`${float} ${text.salometer}`}><span className="strong">{text.floatAbout(float)}</span></FigureButton>. <span className="soft">{card.sugarPercent === 0 ? text.floatCold : text.floatWhy}</span></p>
        <p className="soft"><FigureButton card={card} figure="waterPhasePercent" shown={`${waterPhase} %`}>{text.waterPhase(waterPhase)}</FigureButton></p>
        {card.sugarPercent === 0 ? null : <p className="soft"><FigureButton card={card} figure="sugarPercent" shown={`${sugar} %`}>{text.sugar(sugar)}</FigureButton></p>}
        {firstSolid === null ? null : (
          <p className="soft">
            <FigureButton card={card} figure="firstSolidTicks" shown={firstSolid}>{saltFallsFirst(card.waterPhasePercent) ? text.saltFalls(firstSolid) : text.freezes(firstSolid)}</FigureButton>
          </p>
        )}
      </div>
    </section>
  );
}

function DryStrength({ card }: { readonly card: BrineCard }): ReactNode {
  if (card.curePerFishPercent === null) return null;
  const percent = card.curePerFishPercent.toFixed(2);
  return (
    <section className="sheet">
      <h2>{text.dryStrength}</h2>
      <p><FigureButton card={card} figure="curePerFishPercent" shown={`${percent} %`}><span className="strong">{text.cureLine(percent)}</span></FigureButton></p>
    </section>
  );
}

function Estimate({ card }: { readonly card: BrineCard }): ReactNode {
  const { percent, low, high, yieldPercent } = card.finishedEstimate;
  const shown = text.estimateFigure(percent.toFixed(1), low.toFixed(1), high.toFixed(1));
  return (
    <section className="sheet">
      <h2>{text.estimate}</h2>
      <p><FigureButton card={card} figure="finishedEstimate" shown={shown}><span className="strong">{shown}</span></FigureButton></p>
      <p className="soft">{text.estimateText(yieldPercent.toFixed(0))}</p>
    </section>
  );
}
