import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { packsToCome, targetGrams, type Scale } from './packs-scale.ts';

const text = words.packingTable.portion;
type Portion = Output<'portion.get'>;

interface BalanceProps {
  readonly batchId: string;
  readonly portion: Portion;
  readonly last: Pack | undefined;
  readonly scale: Scale;
}

/** How the packs add up so far: the yield says of what, and what is left. */
export function PacksBalance({ batchId, portion, last, scale }: BalanceProps): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const [isOpen, setIsOpen] = useState(false);
  const { balance, portionings, openPacks } = portion;
  const target = targetGrams(scale.target, kitchen.massUnit);
  const toCome = packsToCome(balance.leftGrams, target);
  const off = target === null || last === undefined ? 0 : last.net.grams - target;
  return (
    <>
      {balance.packs === 0 ? null : (
        <div>
          <p className="strong" role="status">{text.running(balance.packs, formats.mass(balance.packedGrams))}</p>
          <p>{text.yieldOf(balance.yieldOfFilletsPercent.toFixed(1), balance.yieldOfFinishedPercent === null ? null : balance.yieldOfFinishedPercent.toFixed(1))}</p>
          <p className="soft">
            {balance.leftGrams === null ? text.notWeighed : text.left(formats.mass(balance.leftGrams))}
            {toCome === null ? '' : `; ${text.toTarget(toCome)}`}
            {Math.abs(off) < 0.5 ? '' : `; ${text.offTarget(formats.mass(Math.abs(off)), off > 0)}`}
          </p>
        </div>
      )}
      <ul>
        {portionings.map((one) => (
          <li key={one.id} className="small">{text.closed(formats.moment(one.atMs), one.initials, formats.mass(one.trimGrams), formats.mass(one.remainderGrams))}{one.why === '' ? '' : text.closedWhy(one.why)}</li>
        ))}
      </ul>
      {portionings.length === 0 || balance.unaccountedGrams === null || balance.unaccountedPercent === null || openPacks > 0 ? null : (
        <p className="small soft">{text.unaccounted(formats.mass(balance.unaccountedGrams).replace('-', '−'), balance.unaccountedPercent.toFixed(1).replace('-', '−'))}</p>
      )}
      {openPacks === 0 ? null : <div><PressButton look="quiet" onPress={() => setIsOpen(true)}>{text.close}</PressButton></div>}
      {isOpen ? <CloseLeaf batchId={batchId} scale={scale} onClose={() => setIsOpen(false)} /> : null}
    </>
  );
}

/** What is left and what was trimmed; why is asked where it doesn't add up. */
function CloseLeaf({ batchId, scale, onClose }: { readonly batchId: string; readonly scale: Scale; onClose(): void }): ReactNode {
  const { kitchen } = useKitchen();
  const close = useCommand('portion.close');
  const [remainder, setRemainder] = useState('');
  const [trim, setTrim] = useState('');
  const [why, setWhy] = useState('');
  const mass = (typed: string) => (typed.trim() === '' ? null : { text: typed, unit: kitchen.massUnit });
  const send = async (): Promise<void> => {
    const kept = await close.send({ batchId, remainder: mass(remainder), trim: mass(trim), atMs: Date.now(), target: mass(scale.target), tare: scale.weighed === 'gross' ? mass(scale.tare) : null, why });
    if (kept !== null) onClose();
  };
  const asksWhy = faultOf(close.failure, 'why');
  return (
    <Leaf title={text.closeTitle} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <div className="form-grid">
          <Field label={text.remainder} kind="figure" unit={kitchen.massUnit} value={remainder} fault={faultOf(close.failure, 'remainder.text')} onChange={setRemainder} />
          <Field label={text.trim} kind="figure" unit={kitchen.massUnit} value={trim} fault={faultOf(close.failure, 'trim.text')} onChange={setTrim} />
        </div>
        {asksWhy === null && why === '' ? null : <Field label={text.why} help={text.whyHelp} value={why} onChange={setWhy} />}
        <ProblemNote failure={close.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={close.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
