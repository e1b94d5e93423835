import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import type { Point } from '../../../app/contract/requests/smokehouse.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { readThicknessMm } from '../../parts/thickness.ts';
import { words } from '../../words/words.ts';

const text = words.worklist;
/** As the back room takes it. */
const MOST_MM = 300;

/** Puts right how thick a batch's fish is. */
export function CorrectBatch({ batch }: { readonly batch: Batch }): ReactNode {
  const [isOpen, setIsOpen] = useState(false);
  const load = useAsk('load.get', isOpen && batch.loadId !== null ? { loadId: batch.loadId } : null);
  const pieces = load.data?.load.points.filter((point) => point.role === 'piece' && point.batchId === batch.id) ?? [];
  const isReady = batch.loadId === null || load.data !== undefined;
  return (
    <>
      <div><PressButton look="quiet" onPress={() => setIsOpen(true)}>{text.correctBatch}</PressButton></div>
      {isOpen && isReady ? <CorrectLeaf batch={batch} pieces={pieces} onClose={() => setIsOpen(false)} /> : null}
    </>
  );
}

function CorrectLeaf({ batch, pieces, onClose }: { readonly batch: Batch; readonly pieces: readonly Point[]; onClose(): void }): ReactNode {
  const correct = useCommand('batch.correct');
  const [thickest, setThickest] = useState(String(batch.thickestMm));
  const [thicknesses, setThicknesses] = useState<Readonly<Record<string, string>>>({});
  const [why, setWhy] = useState('');
  const [sent, setSent] = useState(false);
  const [affected, setAffected] = useState<readonly string[]>([]);
  const read = (typed: string): number | null => readThicknessMm(typed, MOST_MM);
  const unread = (typed: string | undefined): string | null => (sent && typed !== undefined && typed.trim() !== '' && read(typed) === null ? words.parts.thicknessFault(MOST_MM) : null);
  const send = async (): Promise<void> => {
    setSent(true);
    const typed = Object.entries(thicknesses).filter(([, entered]) => entered.trim() !== '');
    if ([thickest, ...typed.map(([, entered]) => entered)].some((entered) => entered.trim() !== '' && read(entered) === null)) return;
    const changed = typed.flatMap(([pointId, entered]) => {
      const thicknessMm = read(entered);
      return thicknessMm === null || pieces.some((piece) => piece.id === pointId && piece.thicknessMm === thicknessMm) ? [] : [{ pointId, thicknessMm }];
    });
    const kept = await correct.send({ batchId: batch.id, thickestMm: thickest.trim() === '' ? null : read(thickest), pieces: changed, why });
    if (kept === null) return;
    setAffected(kept.affectedBatches);
    if (kept.affectedBatches.length === 0) onClose();
  };
  return (
    <Leaf title={text.correctTitle(batch.shortName)} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="help">{text.correctLead}</p>
        <Field label={text.thickest} kind="figure" unit="mm" value={thickest} fault={unread(thickest) ?? faultOf(correct.failure, 'thickestMm')} onChange={setThickest} />
        {pieces.map(({ id, name, thicknessMm }) => (
          <Field key={id} label={text.pieceThickness(name)} kind="figure" unit="mm" value={thicknesses[id] ?? (thicknessMm === null ? '' : String(thicknessMm))} fault={unread(thicknesses[id])} onChange={(typed) => setThicknesses({ ...thicknesses, [id]: typed })} />
        ))}
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
