import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.packingTable;
const AT_ONCE = 4;
/** A guest's own catch carries more words, two of them very large. */
const GUEST_STOCK = '4x6in';
const SALE_STOCK = '4x3in';

/** Pack weights one after another, and the labels of what is packed. */
export function PacksPanel({ batch }: { readonly batch: Batch }): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const list = useAsk('pack.list', { batchId: batch.id });
  const stocks = useAsk('stock.list', {});
  const seal = useCommand('pack.seal');
  const [weights, setWeights] = useState<readonly string[]>(() => Array<string>(AT_ONCE).fill(''));
  const [stockId, setStockId] = useState('');
  const packs = list.data?.packs ?? [];
  const typed = weights.filter((weight) => weight.trim() !== '');
  const usual = stocks.data?.stocks.find((each) => each.id === (batch.sourceKind === 'guest' ? GUEST_STOCK : SALE_STOCK)) ?? stocks.data?.stocks[0];
  const stock = stockId === '' ? (usual?.id ?? '') : stockId;
  const send = async (): Promise<void> => {
    const answer = await seal.send({ batchId: batch.id, sealedAtMs: Date.now(), weights: typed.map((weight) => ({ text: weight, unit: kitchen.massUnit })) });
    if (answer !== null) setWeights(Array<string>(AT_ONCE).fill(''));
  };
  const faultAt = (index: number): string | null => {
    const at = typed.indexOf(weights[index] ?? '');
    return (weights[index] ?? '').trim() === '' ? null : (faultOf(seal.failure, `weights.${at}.text`) ?? faultOf(seal.failure, `weights.${at}`));
  };
  return (
    <section className="sheet stack">
      <h2>{text.weights}</h2>
      <p className="soft">{text.weightsLead}</p>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <div className="form-grid">
          {weights.map((weight, index) => (
            <Field
              key={index}
              label={text.packNumber(packs.length + index + 1)}
              kind="figure"
              unit={kitchen.massUnit}
              value={weight}
              fault={faultAt(index)}
              onChange={(value) => setWeights(weights.map((each, at) => (at === index ? value : each)))}
            />
          ))}
        </div>
        <ProblemNote failure={seal.failure} />
        <div className="row">
          <PressButton look={packs.length === 0 || typed.length > 0 ? 'next' : 'plain'} type="submit" isDisabled={seal.busy || typed.length === 0}>{text.seal}</PressButton>
          <PressButton look="quiet" onPress={() => setWeights([...weights, ...Array<string>(AT_ONCE).fill('')])}>{text.morePacks}</PressButton>
        </div>
      </form>
      {packs.length === 0 ? <p className="soft">{text.noPacks}</p> : (
        <>
          <h2>{text.packsTitle}</h2>
          <ul>
            {packs.map((pack) => (
              <li key={pack.id}><span className="number">{text.packLine(pack.code, formats.mass(pack.net.grams))}</span> <span className="soft small">{text.printed(pack.printedCount)}</span></li>
            ))}
          </ul>
          <div className="row">
            <Pick label={text.stock} value={stock} choices={(stocks.data?.stocks ?? []).map((each) => ({ id: each.id, text: each.name }))} onChange={setStockId} />
            <PressButton look={typed.length === 0 ? 'next' : 'plain'} onPress={() => go(`${addressOf('print', 'labels', batch.id)}?stock=${encodeURIComponent(stock)}`)}>{text.preview}</PressButton>
          </div>
        </>
      )}
    </section>
  );
}
