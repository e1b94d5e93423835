import { useState, type ReactNode } from 'react';
import type { IngredientLot } from '../../../app/contract/requests/trace-shapes.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.trace.deliveries;

/** Which brine took from a lot, mended with a reason: one that isn’t noted is added, one that is noted is struck out. */
export function DeliveryCorrect({ lot, onClose }: { readonly lot: IngredientLot; onClose(): void }): ReactNode {
  const formats = useFormats();
  const list = useAsk('batch.list', {});
  const correct = useCommand('ingredientLot.correct');
  const [batchId, setBatchId] = useState('');
  const [why, setWhy] = useState('');
  const took = (id: string): boolean => lot.usedIn.some((use) => use.batchId === id);
  const batches = (list.data?.batches ?? []).toSorted((one, other) => other.madeAtMs - one.madeAtMs);
  const send = async (): Promise<void> => {
    if ((await correct.send({ lotId: lot.id, batchId, used: !took(batchId), why })) !== null) onClose();
  };
  return (
    <Leaf title={text.correctOf(`${lot.ingredientName} ${lot.lotCode}`)} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <Pick
          label={text.batch} value={batchId} empty={text.chooseBatch} fault={faultOf(correct.failure, 'batchId')} onChange={setBatchId}
          choices={batches.map((batch) => ({ id: batch.id, text: text.batchLine(batch.lotCode ?? batch.shortName, batch.marketName, formats.day(batch.madeAtMs), took(batch.id)) }))}
        />
        <Field label={text.why} value={why} fault={faultOf(correct.failure, 'why')} onChange={setWhy} />
        <ProblemNote failure={correct.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={correct.busy || batchId === '' || why.trim() === ''}>{took(batchId) ? text.didNotTake : text.didTake}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
