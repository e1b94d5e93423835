import type { ReactNode } from 'react';
import type { PackWhere } from '../../../app/contract/requests/cold-store.ts';
import type { BatchToGive } from '../../../app/contract/requests/hand-over.ts';
import { PressButton } from '../../parts/button.tsx';
import { Several } from '../../parts/choices.tsx';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { ScanField } from './scan-field.tsx';

const text = words.handOver;

interface PacksProps {
  readonly batches: readonly BatchToGive[];
  readonly ids: readonly string[];
  readonly of: number;
  readonly mayGo: BatchToGive['packs'];
  onPick(ids: readonly string[]): void;
}

/** The packs that are here for somebody, batch by batch; what keeps a batch or a pack here is said beside it. */
export function PacksToGive({ batches, ids, of, mayGo, onPick }: PacksProps): ReactNode {
  const formats = useFormats();
  const whyNot = ({ packId, code, where }: PackWhere): string | null => {
    if (mayGo.some((pack) => pack.packId === packId)) return null;
    const batch = batches.find(({ packs }) => packs.some((pack) => pack.packId === packId));
    return text.notGiven(code, batch?.refusal?.message ?? batch?.packs.find((pack) => pack.packId === packId)?.why ?? text.notTheirs(where));
  };
  return (
    <section className="sheet stack">
      <div className="spread middle">
        <h2>{text.theirs}</h2>
        <p className="strong" role="status">{of === 0 ? text.noneChosen : text.count(ids.length, of)}</p>
      </div>
      <div className="row">
        <PressButton look="quiet" onPress={() => onPick(mayGo.map(({ packId }) => packId))}>{text.all}</PressButton>
        <PressButton look="quiet" onPress={() => onPick([])}>{text.noneOf}</PressButton>
      </div>
      {batches.map((batch) => {
        const going = batch.packs.filter((pack) => mayGo.some(({ packId }) => packId === pack.packId));
        const staying = batch.refusal === null ? batch.packs.filter((pack) => pack.why !== null) : [];
        return (
          <article key={batch.batchId} className="stack">
            <h3>{batch.batchName} {batch.marketName}</h3>
            {batch.refusal === null ? <p className="soft small">{batch.line}</p> : (
              <div className="note fault-note">
                <p className="strong">{batch.refusal.message}</p>
                <p>{batch.refusal.remedy}</p>
              </div>
            )}
            {going.length === 0 ? null : (
              <Several
                label={`${text.theirs} ${batch.batchName}`}
                values={ids.filter((id) => going.some(({ packId }) => packId === id))}
                choices={going.map(({ packId, code, grams }) => ({ id: packId, text: `${code.slice(-3)} · ${formats.mass(grams)}` }))}
                onChange={(chosen) => onPick([...ids.filter((id) => !going.some(({ packId }) => packId === id)), ...chosen])}
              />
            )}
            {staying.length === 0 ? null : <ul>{staying.map(({ packId, code, why }) => <li key={packId} className="soft small any-name">{text.stays(code.slice(-3), why ?? '')}</li>)}</ul>}
          </article>
        );
      })}
      <ScanField label={text.scan} has={(packId) => ids.includes(packId)} whyNot={whyNot} onPack={({ packId }) => onPick([...ids, packId])} />
    </section>
  );
}
