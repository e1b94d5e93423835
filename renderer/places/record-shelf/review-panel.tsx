import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { yieldLines } from '../../readings/weigh-batch.tsx';
import { words } from '../../words/words.ts';

const text = words.packingTable.corrective;

/** Who reviewed the record, the review as one act by name, and the corrective actions and weights beside it. */
export function ReviewPanel({ batch }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const { onDuty } = useKitchen();
  const list = useAsk('corrective.list', { batchId: batch.id });
  const review = useCommand('record.review');
  const [remark, setRemark] = useState('');
  if (list.data === undefined) return null;
  const { correctives, reviews, weights } = list.data;
  const send = async (): Promise<void> => {
    if ((await review.send({ batchId: batch.id, remark })) !== null) setRemark('');
  };
  return (
    <section className="sheet stack">
      <h2>{text.review.title}</h2>
      {reviews.length === 0 ? <p className="soft">{text.review.none}</p> : (
        <ul>{reviews.map((each) => <li key={each.id}>{text.review.line(each.initials, formats.longMoment(each.atMs))} {each.trained ? text.review.trained : text.review.untrained} {each.remark}</li>)}</ul>
      )}
      {onDuty === null ? <p className="help">{text.review.nobody}</p> : (
        <form className="row weigh-row" onSubmit={(event) => { event.preventDefault(); void send(); }}>
          <Field label={text.review.remark} value={remark} fault={faultOf(review.failure, 'remark')} onChange={setRemark} />
          <PressButton type="submit" isDisabled={review.busy}>{text.review.act(onDuty.name === '' ? onDuty.initials : onDuty.name)}</PressButton>
        </form>
      )}
      <ProblemNote failure={review.failure} />
      <h2>{text.weights.title}</h2>
      {weights.length === 0 ? <p className="soft">{text.weights.none}</p> : (
        <ul>
          {weights.map((weight) => <li key={`${weight.what}${weight.atMs}${weight.mass.text}`}>{text.weights.line(text.weights.what[weight.what], formats.mass(weight.mass.grams), formats.moment(weight.atMs), weight.initials)}</li>)}
          {yieldLines(batch.fillets.grams, weights).map((line) => <li key={line} className="strong">{line}</li>)}
        </ul>
      )}
      {correctives.length === 0 ? null : (
        <>
          <h2>{text.title}</h2>
          <ol>
            {correctives.map((each) => (
              <li key={each.id}>
                {text.dispositions[each.disposition]}. {text.parts.cause}: {each.cause}. {each.verified === null ? text.notVerified : text.verified(each.verified.initials, formats.longMoment(each.verified.atMs), each.verified.how)}
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
}
