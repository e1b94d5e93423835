import { useState, type ReactNode } from 'react';
import type { BatchWeight } from '../../app/contract/requests/corrective.ts';
import type { Batch } from '../../app/contract/requests/brine-bench.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { PressButton } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { useFormats } from '../parts/format.ts';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { yieldsOf } from './batch-yield.ts';

const text = words.packingTable.corrective.weights;

interface WeighBatchProps {
  readonly batch: Pick<Batch, 'id' | 'shortName' | 'fillets'>;
  /** The weight that is asked for now; null where there is none to take. */
  readonly what: BatchWeight['what'] | null;
}

/** A weight on the way: the figure and one button. The yields of what was weighed stand below. */
export function WeighBatch({ batch, what }: WeighBatchProps): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const list = useAsk('corrective.list', { batchId: batch.id });
  const weigh = useCommand('batch.weigh');
  const [typed, setTyped] = useState('');
  const weights = list.data?.weights ?? [];
  const send = async (): Promise<void> => {
    if (what === null) return;
    const answer = await weigh.send({ batchId: batch.id, what, mass: { text: typed, unit: kitchen.massUnit }, atMs: Date.now() });
    if (answer !== null) setTyped('');
  };
  return (
    <div className="stack">
      {what === null ? null : (
        <form className="row weigh-row" onSubmit={(event) => { event.preventDefault(); void send(); }}>
          <Field label={`${batch.shortName}: ${text.ask[what]}`} kind="figure" unit={kitchen.massUnit} value={typed} fault={faultOf(weigh.failure, 'mass.text')} onChange={setTyped} />
          <PressButton type="submit" isDisabled={weigh.busy || typed.trim() === ''}>{text.keep}</PressButton>
        </form>
      )}
      {weigh.failure?.fields === undefined ? <ProblemNote failure={weigh.failure} /> : null}
      {weights.length === 0 ? null : (
        <ul>
          {weights.map((weight) => <li key={`${weight.what}${weight.atMs}${weight.mass.text}`}>{text.line(text.what[weight.what], formats.mass(weight.mass.grams), formats.moment(weight.atMs), weight.initials)}</li>)}
          {yieldLines(batch.fillets.grams, weights).map((line) => <li key={line} className="strong">{line}</li>)}
        </ul>
      )}
    </div>
  );
}

/** The yields in words, each with what it is a part of. */
export function yieldLines(filletGrams: number, weights: readonly BatchWeight[]): string[] {
  const { brinedPercent, finishedPercent, isOfBrined } = yieldsOf(filletGrams, weights);
  return [
    ...(brinedPercent === null ? [] : [text.uptake(brinedPercent.toFixed(1))]),
    ...(finishedPercent === null ? [] : [isOfBrined ? text.yieldOfBrined(finishedPercent.toFixed(1)) : text.yieldOfFillets(finishedPercent.toFixed(1))]),
  ];
}
