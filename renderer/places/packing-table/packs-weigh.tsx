import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import type { Scale } from './packs-scale.ts';

const text = words.packingTable;
const AT_ONCE = 4;

interface WeighProps {
  readonly batch: Batch;
  /** How many packs there are already. */
  readonly packs: number;
  readonly scale: Scale;
  setScale(scale: Scale): void;
  onTyping(isTyping: boolean): void;
}

/** Weights one after another: type and Enter, and the next field is the first again. */
export function WeighPacks({ batch, packs, scale, setScale, onTyping }: WeighProps): ReactNode {
  const { kitchen } = useKitchen();
  const seal = useCommand('pack.seal');
  const [weights, setWeights] = useState<readonly string[]>(() => Array<string>(AT_ONCE).fill(''));
  const typed = weights.filter((weight) => weight.trim() !== '');
  const change = (next: readonly string[]): void => {
    setWeights(next);
    onTyping(next.some((weight) => weight.trim() !== ''));
  };
  const mass = (typedText: string): { text: string; unit: typeof kitchen.massUnit } => ({ text: typedText, unit: kitchen.massUnit });
  const send = async (): Promise<void> => {
    const answer = await seal.send({
      batchId: batch.id, sealedAtMs: Date.now(), weights: typed.map(mass),
      ...(scale.weighed === 'gross' ? { weighed: 'gross' as const, ...(scale.tare.trim() === '' ? {} : { tare: mass(scale.tare) }) } : {}),
      ...(scale.target.trim() === '' ? {} : { target: mass(scale.target) }),
    });
    if (answer !== null) change(Array<string>(AT_ONCE).fill(''));
  };
  const faultAt = (index: number): string | null => {
    const at = weights.slice(0, index).filter((weight) => weight.trim() !== '').length;
    return (weights[index] ?? '').trim() === '' ? null : (faultOf(seal.failure, `weights.${at}.text`) ?? faultOf(seal.failure, `weights.${at}`));
  };
  return (
    <form className="stack" onSubmit={(event) => { event.preventDefault(); if (typed.length > 0 && !seal.busy) void send(); }}>
      <div className="form-grid">
        {weights.map((weight, index) => (
          <Field
            // The field of the next pack is a new one, so that it takes the keys after Enter.
            key={`${packs} ${index}`}
            label={text.packNumber(packs + index + 1)}
            kind="figure"
            unit={kitchen.massUnit}
            value={weight}
            autoFocus={index === 0 && packs > 0}
            fault={faultAt(index)}
            onChange={(value) => change(weights.map((each, at) => (at === index ? value : each)))}
          />
        ))}
      </div>
      <div className="row">
        <PressButton look={packs === 0 || typed.length > 0 ? 'next' : 'plain'} type="submit" isDisabled={seal.busy || typed.length === 0}>{text.seal}</PressButton>
        <PressButton look="quiet" onPress={() => setWeights([...weights, ...Array<string>(AT_ONCE).fill('')])}>{text.morePacks}</PressButton>
      </div>
      <ProblemNote failure={seal.failure} />
      <Choices label={text.portion.scale} value={scale.weighed} choices={[{ id: 'net', text: text.portion.net }, { id: 'gross', text: text.portion.gross }]} onChange={(weighed) => setScale({ ...scale, weighed })} />
      <div className="form-grid">
        {scale.weighed === 'gross' ? <Field label={text.portion.tare} kind="figure" unit={kitchen.massUnit} value={scale.tare} fault={faultOf(seal.failure, 'tare.text')} onChange={(tare) => setScale({ ...scale, tare })} /> : null}
        <Field label={text.portion.target} kind="figure" unit={kitchen.massUnit} value={scale.target} fault={faultOf(seal.failure, 'target.text')} onChange={(target) => setScale({ ...scale, target })} />
      </div>
    </form>
  );
}
