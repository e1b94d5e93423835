import type { ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import { useFormats } from '../parts/format.ts';
import { yieldLines } from '../readings/weigh-batch.tsx';
import { words } from '../words/words.ts';

const text = words.packingTable.corrective;

interface RecordCorrectiveProps {
  readonly listed: Output<'corrective.list'>;
  readonly name: string;
  readonly filletGrams: number;
}

/** Weights, corrective actions by number, and reviews, on paper. */
export function RecordCorrective({ listed: { weights, correctives, reviews }, name, filletGrams }: RecordCorrectiveProps): ReactNode {
  const formats = useFormats();
  return (
    <>
      {weights.length === 0 ? null : (
        <>
          <h2>{text.weights.title}</h2>
          <ul>
            {weights.map((weight) => <li key={`${weight.what}${weight.atMs}${weight.mass.text}`}>{text.weights.line(text.weights.what[weight.what], formats.mass(weight.mass.grams), formats.longMoment(weight.atMs), weight.initials)}</li>)}
            {yieldLines(filletGrams, weights).map((line) => <li key={line}>{line}</li>)}
          </ul>
        </>
      )}
      {correctives.length === 0 ? null : <h2>{text.title}</h2>}
      {correctives.map((each, index) => (
        <div key={each.id}>
          <p><b>{text.number(index + 1, name)}{each.checkId === '' ? '' : ` (${each.checkId})`}: {text.dispositions[each.disposition]}</b></p>
          <ul>
            <li>{text.parts.cause}: {each.cause}</li>
            <li>{text.parts.quantity}: {each.quantity}</li>
            {each.keptWhere === '' ? null : <li>{text.parts.place}: {each.keptWhere}</li>}
            <li>{text.parts.evaluation(each.evaluatedBy)}{each.evaluation === '' ? '' : `: ${each.evaluation}`}</li>
            {each.fix === '' ? null : <li>{text.parts.fix}: {each.fix}</li>}
            <li>{text.opened(each.openedBy, formats.longMoment(each.openedAtMs))}. {each.verified === null ? text.notVerified : text.verified(each.verified.initials, formats.longMoment(each.verified.atMs), each.verified.how)}</li>
          </ul>
        </div>
      ))}
      <h2>{text.review.title}</h2>
      {reviews.length === 0 ? <p>{text.review.none}</p> : (
        <ul>{reviews.map((each) => <li key={each.id}>{text.review.line(each.initials, formats.longMoment(each.atMs))} {each.trained ? text.review.trained : text.review.untrained} {each.remark}</li>)}</ul>
      )}
    </>
  );
}
