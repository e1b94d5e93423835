import type { ReactNode } from 'react';
import { ToggleButton } from 'react-aria-components';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { scaleGrams, useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { FigureButton } from './figure-button.tsx';
import type { Weighed } from './use-weighed.ts';

const text = words.brineBench;

interface LinesProps {
  readonly card: BrineCard;
  /** The ticks of the batch's card; left out while it is only looked at. */
  readonly weighed?: Weighed;
}

/** The ingredients, heavy figures first to the eye, each with its tick when it is weighed. */
export function CardLines({ card, weighed }: LinesProps): ReactNode {
  const formats = useFormats();
  const total = scaleGrams(card.totalGrams);
  const litres = text.litres(card.litres.toFixed(2), formats.temperature(card.brineTicks, 0));
  return (
    <table className="card-lines">
      <tbody>
        {card.lines.map((line) => {
          const shown = scaleGrams(line.grams);
          const isWeighed = weighed?.ids.has(line.ingredientId) ?? false;
          return (
            <tr key={line.ingredientId} className={isWeighed ? 'done' : ''}>
              <th scope="row">{line.name}</th>
              <td className="figure number">
                <FigureButton card={card} figure={`line.${line.ingredientId}`} shown={`${shown.figure} ${shown.unit}`}>{shown.figure}</FigureButton>
              </td>
              <td className="unit">{shown.unit}</td>
              <td className="soft small">{[line.household, line.remark].filter((part) => part !== '').join('; ')}</td>
              {weighed === undefined ? null : (
                <td className="tick">
                  <ToggleButton className="tick-box" aria-label={text.weighed(line.name)} isSelected={isWeighed} onChange={(next) => weighed.set(line.ingredientId, next)}>
                    {isWeighed ? '✓' : ''}
                  </ToggleButton>
                </td>
              )}
            </tr>
          );
        })}
        <tr className="total">
          <th scope="row">{card.cure === 'dry' ? text.cureInAll : text.brineInAll}</th>
          <td className="figure number"><FigureButton card={card} figure="totalGrams" shown={`${total.figure} ${total.unit}`}>{total.figure}</FigureButton></td>
          <td className="unit">{total.unit}</td>
          <td className="soft small" colSpan={weighed === undefined ? 1 : 2}>
            {card.cure === 'dry' ? null : <FigureButton card={card} figure="litres" shown={litres}>{litres}</FigureButton>}
          </td>
        </tr>
      </tbody>
    </table>
  );
}
