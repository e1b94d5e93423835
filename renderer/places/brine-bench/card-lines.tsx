import { useState, type ReactNode } from 'react';
import { ToggleButton } from 'react-aria-components';
import type { BrineCard } from '../../../app/contract/requests/brine-bench.ts';
import { scaleGrams, useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

const text = words.brineBench;

/** The ingredients, heavy figures first to the eye, each with its tick when it is weighed. */
export function CardLines({ card, ticks }: { readonly card: BrineCard; readonly ticks: boolean }): ReactNode {
  const formats = useFormats();
  const [weighed, setWeighed] = useState<ReadonlySet<string>>(new Set());
  const toggle = (id: string): void => {
    const next = new Set(weighed);
    if (!next.delete(id)) next.add(id);
    setWeighed(next);
  };
  const total = scaleGrams(card.totalGrams);
  return (
    <table className="card-lines">
      <tbody>
        {card.lines.map((line) => {
          const shown = scaleGrams(line.grams);
          return (
            <tr key={line.ingredientId} className={weighed.has(line.ingredientId) ? 'done' : ''}>
              <th scope="row">{line.name}</th>
              <td className="figure number">{shown.figure}</td>
              <td className="unit">{shown.unit}</td>
              <td className="soft small">{[line.household, line.remark].filter((part) => part !== '').join('; ')}</td>
              {ticks ? (
                <td className="tick">
                  <ToggleButton className="tick-box" aria-label={text.weighed(line.name)} isSelected={weighed.has(line.ingredientId)} onChange={() => toggle(line.ingredientId)}>
                    {weighed.has(line.ingredientId) ? '✓' : ''}
                  </ToggleButton>
                </td>
              ) : null}
            </tr>
          );
        })}
        <tr className="total">
          <th scope="row">{text.brineInAll}</th>
          <td className="figure number">{total.figure}</td>
          <td className="unit">{total.unit}</td>
          <td className="soft small" colSpan={ticks ? 2 : 1}>{text.litres(card.litres.toFixed(2), formats.temperature(card.brineTicks, 0))}</td>
        </tr>
      </tbody>
    </table>
  );
}
