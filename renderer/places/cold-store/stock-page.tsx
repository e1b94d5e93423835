import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { PackWhere, StockGroup } from '../../../app/contract/requests/cold-store.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { dayInWords, useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { MovePacks } from './move-packs.tsx';
import { ScanField } from './scan-field.tsx';

const text = words.coldStore.stock;
/** What is taken first, before the whole list is unfolded. */
const FIRST = 6;

/** Packs in and out by their codes, and what is here. */
export function StockPage(): ReactNode {
  const formats = useFormats();
  const stock = useAsk('pack.stock', {});
  const [listed, setListed] = useState<readonly PackWhere[]>([]);
  const [moved, setMoved] = useState<number | null>(null);
  const scan = words.coldStore.scan;
  const add = (pack: PackWhere): void => {
    setMoved(null);
    setListed((before) => (before.some(({ packId }) => packId === pack.packId) ? before : [...before, pack]));
  };
  return (
    <div className="halves">
      <section className="sheet stack">
        <h2>{scan.title}</h2>
        <p className="soft">{scan.lead}</p>
        <ScanField label={scan.field} has={(packId) => listed.some((pack) => pack.packId === packId)} onPack={add} />
        {listed.length === 0 ? null : (
          <>
            <p className="strong" role="status">{scan.listed(listed.length, formats.mass(sumOf(listed)))}</p>
            <ul className="pack-rows">
              {listed.map((pack) => (
                <li key={pack.packId}>
                  <span><span className="number">{pack.code}</span> {pack.marketName}, {pack.where}</span>
                  <PressButton look="quiet" label={scan.remove(pack.code)} onPress={() => setListed(listed.filter(({ packId }) => packId !== pack.packId))}>{scan.off}</PressButton>
                </li>
              ))}
            </ul>
            <MovePacks packs={listed} spots={stock.data?.spots ?? []} onMoved={(count) => { setMoved(count); setListed([]); }} />
            <div><PressButton look="quiet" onPress={() => setListed([])}>{scan.clear}</PressButton></div>
          </>
        )}
        {moved === null ? null : <p className="strong" role="status">{scan.moved(moved)}</p>}
      </section>
      {stock.data === undefined ? null : <Stock stock={stock.data} onPick={add} />}
    </div>
  );
}

function Stock({ stock, onPick }: { readonly stock: Output<'pack.stock'>; onPick(pack: PackWhere): void }): ReactNode {
  const formats = useFormats();
  const expiring = new Set(stock.expiring);
  const { packs } = stock;
  return (
    <section className="sheet stack">
      <h2>{text.title}</h2>
      {packs.length === 0 ? <p className="soft">{text.none}</p> : (
        <>
          <p className="strong">{text.total(packs.length, formats.mass(sumOf(packs)))}</p>
          {expiring.size === 0 ? null : <p className="note caution">{text.expiring(expiring.size)}</p>}
          <Groups title={text.bySpecies} groups={stock.bySpecies} unnamed="" />
          <Groups title={text.byPlace} groups={stock.byPlace} unnamed={text.nowhere} />
          <Groups title={text.byOwner} groups={stock.byOwner} unnamed={text.forSale} />
          <h3>{text.first}</h3>
          <Rows packs={packs.slice(0, FIRST)} expiring={expiring} onPick={onPick} />
          {packs.length <= FIRST ? null : (
            <details>
              <summary>{text.all(packs.length)}</summary>
              <Rows packs={packs} expiring={expiring} onPick={onPick} />
            </details>
          )}
        </>
      )}
    </section>
  );
}

function Groups({ title, groups, unnamed }: { readonly title: string; readonly groups: readonly StockGroup[]; readonly unnamed: string }): ReactNode {
  const formats = useFormats();
  return (
    <div>
      <h3>{title}</h3>
      <ul>{groups.map(({ key, name, packs, grams }) => <li key={key} className="any-name">{text.group(name === '' ? unnamed : name, packs, formats.mass(grams))}</li>)}</ul>
    </div>
  );
}

function Rows({ packs, expiring, onPick }: { readonly packs: readonly PackWhere[]; readonly expiring: ReadonlySet<string>; onPick(pack: PackWhere): void }): ReactNode {
  const formats = useFormats();
  return (
    <ul className="pack-rows">
      {packs.map((pack) => (
        <li key={pack.packId}>
          <span>
            <span className="number">{pack.code}</span> {text.line(pack.marketName, formats.mass(pack.grams))}{' '}
            <span className="soft small any-name">{[pack.where, ...(pack.ownerName === null ? [] : [pack.ownerName]), ...(pack.bestBy === null ? [] : [text.bestBy(dayInWords(pack.bestBy))]), ...(expiring.has(pack.packId) ? [text.soon] : [])].join('; ')}</span>
          </span>
          <PressButton look="quiet" label={text.pick(pack.code)} onPress={() => onPick(pack)}>{text.pickWord}</PressButton>
        </li>
      ))}
    </ul>
  );
}

function sumOf(packs: readonly PackWhere[]): number {
  return packs.reduce((sum, { grams }) => sum + grams, 0);
}
