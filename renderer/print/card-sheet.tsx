import { useEffect, useRef, useState, type ReactNode, type RefObject } from 'react';
import type { Batch } from '../../app/contract/requests/brine-bench.ts';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { scaleGrams, useFormats, type Formats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { plainRatio, strengthWords } from '../parts/brine-words.ts';
import { plannedTimes } from '../parts/soak-times.ts';
import { words } from '../words/words.ts';
import { CARD_TYPE_POINTS, cardPageOf, fitType, printedWidthMm, type CardPage } from './card-fit.ts';
import { Paper } from './paper.tsx';
import './card-sheet.css';

const text = words.print.card;
const bench = words.brineBench;
const sheet = bench.sheet;

/** The brine card on one page, A5 or half a letter sheet, in the largest type that keeps to it. */
export function CardSheet({ batchId }: { readonly batchId: string }): ReactNode {
  const answer = useAsk('batch.get', { batchId });
  const office = useAsk('office.get', {});
  const { kitchen } = useKitchen();
  const article = useRef<HTMLElement>(null);
  const page = cardPageOf(kitchen.massUnit);
  const fits = useOnePage(article, page, answer.data?.batch);
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const { batch } = answer.data;
  const place = office.data?.places.find((one) => one.id === batch.brinePlaceId);
  return (
    <Paper widthMm={page.widthMm} heightMm={page.heightMm} marginMm={page.marginMm} mayPrint={fits} above={fits ? null : <p className="fault" role="alert">{sheet.tooLong}</p>}>
      <article className="card-sheet" ref={article} style={{ width: `${printedWidthMm(page)}mm` }}>
        <CardHead batch={batch} />
        <CardTable batch={batch} />
        <CardStrength batch={batch} />
        <Turns batch={batch} stands={bench.soakLog.stands(place?.name ?? '', batch.tub, batch.basket)} />
        <Mends batch={batch} />
        {batch.card.cautions.length === 0 ? null : <ul>{batch.card.cautions.map((caution) => <li key={caution}>{caution}</li>)}</ul>}
        <p className="card-caution">{words.frame.caution}</p>
      </article>
    </Paper>
  );
}

/** Sets the card's type so that it keeps to one page; false where no type does. Measured again when the fonts have come. */
function useOnePage(article: RefObject<HTMLElement | null>, page: CardPage, batch: Batch | undefined): boolean {
  const [fits, setFits] = useState(true);
  const { widthMm, heightMm, marginMm } = page;
  useEffect(() => {
    let isGone = false;
    const measure = (): void => {
      const element = article.current;
      if (element === null || isGone) return;
      const heightAt = (points: number): number => {
        element.style.setProperty('--card-type', `${points}pt`);
        return element.getBoundingClientRect().height;
      };
      const points = fitType({ widthMm, heightMm, marginMm }, heightAt);
      element.style.setProperty('--card-type', `${points ?? CARD_TYPE_POINTS.at(-1)}pt`);
      setFits(points !== null);
    };
    measure();
    void document.fonts.ready.then(measure);
    return () => {
      isGone = true;
    };
  });
  return batch === undefined || fits;
}

function CardHead({ batch }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const { card } = batch;
  return (
    <div>
      <h1>{bench.cardTitle(card.recipeName, formats.mass(card.filletGrams), batch.marketName)}</h1>
      <p>
        {bench.cardSub(card.recipeVersion, batch.shortName)}. {card.cure === 'dry' ? '' : `${bench.ratioLine(plainRatio(card.ratio))}. `}
        {card.target === '' ? '' : `${bench.goalLine(card.target)}. `}{formats.longMoment(batch.madeAtMs)}, {batch.madeBy}
      </p>
    </div>
  );
}

function CardTable({ batch: { card } }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const total = scaleGrams(card.totalGrams);
  return (
    <table>
      <tbody>
        {card.lines.map((line) => {
          const shown = scaleGrams(line.grams);
          return (
            <tr key={line.ingredientId}>
              <th scope="row">{line.name}</th>
              <td className="right number big">{shown.figure} {shown.unit}</td>
              <td className="measure">{[line.household, line.remark].filter((part) => part !== '').join('; ')}</td>
              <td className="tick-cell"><PrintBox /></td>
            </tr>
          );
        })}
        <tr>
          <th scope="row">{card.cure === 'dry' ? bench.cureInAll : bench.brineInAll}</th>
          <td className="right number big">{total.figure} {total.unit}</td>
          <td colSpan={2} className="measure">{card.cure === 'dry' ? '' : bench.litres(card.litres.toFixed(2), formats.temperature(card.brineTicks, 0))}</td>
        </tr>
      </tbody>
    </table>
  );
}

/** A box to tick by hand, drawn: the typeface has none. A black one is done. */
function PrintBox({ isDone = false }: { readonly isDone?: boolean }): ReactNode {
  return <span className={isDone ? 'print-box done' : 'print-box'} aria-hidden="true" />;
}

function CardStrength({ batch: { card } }: { readonly batch: Batch }): ReactNode {
  const { percent, low, high, yieldPercent } = card.finishedEstimate;
  return (
    <div>
      {card.cure === 'dry' ? (
        <p><b>{card.curePerFishPercent === null ? '' : bench.cureLine(card.curePerFishPercent.toFixed(2))}</b></p>
      ) : (
        <p><b className="number">{card.salometerDegrees.toFixed(1)} {bench.salometer}, {card.percentByWeight.toFixed(2)} %</b> {bench.byWeight}. {bench.float(card.floatShowsDegrees.toFixed(0))}. {sheet.floatRead} ______</p>
      )}
      <p>{bench.estimate}: {bench.estimateFigure(percent.toFixed(1), low.toFixed(1), high.toFixed(1))}. {bench.estimateText(yieldPercent.toFixed(0))}</p>
    </div>
  );
}

/** The soak by the clock where it has started, else by its hours with blanks to fill in. */
function Turns({ batch, stands }: { readonly batch: Batch; readonly stands: string }): ReactNode {
  const formats = useFormats();
  return (
    <div>
      <p><b>{text.soakFor(String(batch.card.soakHours))}</b> {stands}</p>
      <ul className="turns">{soakSteps(batch, formats).map(({ said, isDone }) => <li key={said}><PrintBox isDone={isDone} /> {said}</li>)}</ul>
      {batch.soak.length > 0 ? null : (
        <p>{sheet.weighedBy} ________ {text.started} ____________ {batch.card.cure === 'dry' ? '' : `${text.brine} ______ ${formats.degreeSign} `}{text.ended} ____________</p>
      )}
    </div>
  );
}

/** Every step of the soak in order: as logged, then as planned. */
function soakSteps(batch: Batch, formats: Formats): { said: string; isDone: boolean }[] {
  const { card, soak } = batch;
  const planned = plannedTimes(batch);
  if (planned === null) return [...card.turnHours.map((hours) => sheet.turnAfter(String(hours))), sheet.endAfter(String(card.soakHours))].map((said) => ({ said, isDone: false }));
  const turnedCount = soak.filter((event) => event.what === 'turn').length;
  const toCome = soak.some((event) => event.what === 'end') ? [] : [
    ...planned.turnsAtMs.slice(turnedCount).map((atMs) => sheet.turnAt(formats.moment(atMs))),
    sheet.endAt(formats.moment(planned.endAtMs)),
  ];
  return [...soak.map((event) => ({ said: loggedStep(event, formats), isDone: true })), ...toCome.map((said) => ({ said, isDone: false }))];
}

function loggedStep(event: Batch['soak'][number], formats: Formats): string {
  const moment = formats.moment(event.atMs);
  if (event.what === 'turn') return sheet.turnedAt(moment, event.initials);
  if (event.what === 'end') return sheet.endedAt(moment, event.initials);
  return sheet.startedAt(moment, event.initials, event.brineTicks === null ? bench.noTemperature : formats.temperature(event.brineTicks));
}

function Mends({ batch: { mends } }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  if (mends.length === 0) return null;
  return (
    <ul>
      {mends.map((mend) => (
        <li key={mend.id}>
          <b>{bench.mend.mendedTitle}</b> {bench.mend.mended(formats.moment(mend.atMs), mend.initials, bench.mend.kinds[mend.kind])}; {bench.mend.was(strengthWords(mend.before), strengthWords(mend.after))}
        </li>
      ))}
    </ul>
  );
}
