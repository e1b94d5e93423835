import { useState, type ReactNode } from 'react';
import type { FishLot } from '../../../app/contract/requests/fish.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.worklist;

/** Puts a lot's species or owner right. */
export function CorrectLot({ lot }: { readonly lot: FishLot }): ReactNode {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <>
      <PressButton look="quiet" label={text.correctTitle(lot.code)} onPress={() => setIsOpen(true)}>{text.correct}</PressButton>
      {isOpen ? <CorrectLeaf lot={lot} onClose={() => setIsOpen(false)} /> : null}
    </>
  );
}

function CorrectLeaf({ lot, onClose }: { readonly lot: FishLot; onClose(): void }): ReactNode {
  const correct = useCommand('fishLot.correct');
  const list = useAsk('fish.species', {});
  const owner = lot.source.kind === 'guest' ? lot.source.ownerName : null;
  const [speciesId, setSpeciesId] = useState(lot.species.id);
  const [ownerName, setOwnerName] = useState(owner ?? '');
  const [why, setWhy] = useState('');
  const [affected, setAffected] = useState<readonly string[]>([]);
  const send = async (): Promise<void> => {
    const kept = await correct.send({ lotId: lot.id, speciesId: speciesId === lot.species.id ? null : speciesId, ownerName: owner === null || ownerName === owner ? null : ownerName, why });
    if (kept === null) return;
    setAffected(kept.affectedBatches);
    if (kept.affectedBatches.length === 0) onClose();
  };
  return (
    <Leaf title={text.correctTitle(lot.code)} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="help">{text.correctLead}</p>
        <Pick label={text.species} value={speciesId} choices={(list.data?.species ?? [lot.species]).map(({ id, commonName }) => ({ id, text: commonName }))} fault={faultOf(correct.failure, 'speciesId')} onChange={setSpeciesId} />
        {owner === null ? null : <Field label={text.owner} value={ownerName} fault={faultOf(correct.failure, 'ownerName')} onChange={setOwnerName} />}
        <Field label={text.why} value={why} fault={faultOf(correct.failure, 'why')} onChange={setWhy} />
        <ProblemNote failure={correct.failure} />
        {affected.length === 0 ? null : <p className="note caution">{text.affected(affected.join(', '))}</p>}
        <div className="row">
          {affected.length === 0 ? <PressButton look="next" type="submit" isDisabled={correct.busy}>{text.save}</PressButton> : null}
          <PressButton onPress={onClose}>{affected.length === 0 ? words.parts.cancel : words.parts.close}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
