import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { PacksBalance } from './packs-balance.tsx';
import type { Scale } from './packs-scale.ts';
import { WeighPacks } from './packs-weigh.tsx';

const text = words.packingTable;
/** A guest's own catch carries more words, two of them very large. */
const GUEST_STOCK = '4x6in';
const SALE_STOCK = '4x3in';

/** What may be sealed and must be said, pack weights one after another, how they add up, and the labels. */
export function PacksPanel({ batch }: { readonly batch: Batch }): ReactNode {
  const list = useAsk('pack.list', { batchId: batch.id });
  const portion = useAsk('portion.get', { batchId: batch.id });
  const [scale, setScale] = useState<Scale | null>(null);
  const [isTyping, setIsTyping] = useState(false);
  const packs = list.data?.packs ?? [];
  if (portion.data === undefined) return null;
  const before: Scale = { weighed: portion.data.lastTare === '' ? 'net' : 'gross', tare: portion.data.lastTare, target: portion.data.lastTarget };
  const used = scale ?? before;
  return (
    <section className="sheet stack">
      <h2>{text.weights}</h2>
      {portion.data.refusal === null ? (
        <>
          <p className="soft">{text.portion.lead}</p>
          <WeighPacks batch={batch} packs={packs.length} scale={used} setScale={setScale} onTyping={setIsTyping} />
        </>
      ) : (
        <div className="note fault-note" role="alert">
          <p className="strong">{portion.data.refusal.message}</p>
          <p>{portion.data.refusal.remedy}</p>
        </div>
      )}
      <PacksBalance batchId={batch.id} portion={portion.data} last={packs.at(-1)} scale={used} />
      <Says says={portion.data.says} isOpen={packs.length === 0} />
      {packs.length === 0 ? <p className="soft">{text.noPacks}</p> : <PackList batch={batch} packs={packs} isTyping={isTyping} />}
    </section>
  );
}

/** Open before the first pack is weighed, folded afterwards. */
function Says({ says, isOpen }: { readonly says: Output<'portion.get'>['says']; readonly isOpen: boolean }): ReactNode {
  if (says.length === 0) return null;
  return (
    <details open={isOpen}>
      <summary>{text.portion.says}</summary>
      <ul>{says.map(({ text: said, source }) => <li key={said}>{said} <span className="soft small">{source}</span></li>)}</ul>
    </details>
  );
}

function PackList({ batch, packs, isTyping }: { readonly batch: Batch; readonly packs: Output<'pack.list'>['packs']; readonly isTyping: boolean }): ReactNode {
  const formats = useFormats();
  const stocks = useAsk('stock.list', {});
  const [stockId, setStockId] = useState('');
  const usual = stocks.data?.stocks.find((each) => each.id === (batch.sourceKind === 'guest' ? GUEST_STOCK : SALE_STOCK)) ?? stocks.data?.stocks[0];
  const stock = stockId === '' ? (usual?.id ?? '') : stockId;
  return (
    <>
      <h2>{text.packsTitle}</h2>
      <ul>
        {packs.map((pack) => (
          <li key={pack.id}><span className="number">{text.packLine(pack.code, formats.mass(pack.net.grams))}</span> <span className="soft small">{text.printed(pack.printedCount)}</span></li>
        ))}
      </ul>
      <div className="row">
        <Pick label={text.stock} value={stock} choices={(stocks.data?.stocks ?? []).map((each) => ({ id: each.id, text: each.name }))} onChange={setStockId} />
        <PressButton look={isTyping ? 'plain' : 'next'} onPress={() => go(`${addressOf('print', 'labels', batch.id)}?stock=${encodeURIComponent(stock)}`)}>{text.preview}</PressButton>
        <a className="chip" href={addressOf('cold-store', 'trays', batch.id)}>{text.portion.toStore}</a>
      </div>
    </>
  );
}
