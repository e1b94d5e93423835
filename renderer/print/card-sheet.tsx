import type { ReactNode } from 'react';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { scaleGrams, useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { Paper } from './paper.tsx';

const text = words.print.card;
const bench = words.brineBench;

/** The brine card on one A5 page. */
export function CardSheet({ batchId }: { readonly batchId: string }): ReactNode {
  const answer = useAsk('batch.get', { batchId });
  const formats = useFormats();
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const { batch } = answer.data;
  const { card } = batch;
  return (
    <Paper widthMm={148} heightMm={210} marginMm={9}>
      <article className="sheet-a5">
        <h1>{bench.cardTitle(card.recipeName, formats.mass(card.filletGrams), batch.marketName)}</h1>
        <p>{bench.cardSub(card.recipeVersion, String(card.ratio), batch.shortName)}. {formats.longMoment(batch.madeAtMs)}, {batch.madeBy}</p>
        <table className="print-table">
          <tbody>
            {card.lines.map((line) => {
              const shown = scaleGrams(line.grams);
              return (
                <tr key={line.ingredientId}>
                  <th scope="row">{line.name}</th>
                  <td className="right number big">{shown.figure} {shown.unit}</td>
                  <td>{[line.household, line.remark].filter((part) => part !== '').join('; ')}</td>
                  <td className="tick-cell">□</td>
                </tr>
              );
            })}
            <tr>
              <th scope="row">{bench.brineInAll}</th>
              <td className="right number big">{scaleGrams(card.totalGrams).figure} {scaleGrams(card.totalGrams).unit}</td>
              <td colSpan={2}>{bench.litres(card.litres.toFixed(2), formats.temperature(card.brineTicks, 0))}</td>
            </tr>
          </tbody>
        </table>
        <p><b className="number">{card.salometerDegrees.toFixed(1)} {bench.salometer}, {card.percentByWeight.toFixed(2)} %</b> {bench.byWeight}. {bench.float(card.floatShowsDegrees.toFixed(0))}.</p>
        <p>{text.estimate}: {card.finishedEstimate.percent.toFixed(1)} % ({card.finishedEstimate.low.toFixed(1)}–{card.finishedEstimate.high.toFixed(1)})</p>
        <p><b>{text.soakFor(String(card.soakHours))}</b> {card.turnHours.map((hours) => `${text.turns} ${text.turnAfter(String(hours))}`).join('; ')}</p>
        <p className="blanks">{text.started} ______________ {text.brine} ______ {formats.degreeSign} &nbsp; {text.turns} ______________ &nbsp; {text.ended} ______________</p>
        <ul>{card.cautions.map((caution) => <li key={caution}>{caution}</li>)}</ul>
        <p className="print-caution">{words.frame.caution}</p>
      </article>
    </Paper>
  );
}
