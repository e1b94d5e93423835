import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { addressOf } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Pick } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { MomentField } from '../../parts/moment-field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.coldStore;
type What = keyof typeof text.marks;

interface FreezerMarksProps {
  readonly batches: readonly Batch[];
  readonly freezers: readonly { readonly id: string; readonly name: string }[];
  /** Batches whose packs lie on trays: their marks are set there. */
  readonly onTrays: ReadonlySet<string>;
}

/** Sealed, into the freezer, frozen solid, out: one tap each, in that freezer's own record. */
export function FreezerMarks({ batches, freezers, onTrays }: FreezerMarksProps): ReactNode {
  return (
    <section className="sheet stack">
      <h2>{text.batches}</h2>
      {batches.length === 0 ? <p className="soft">{text.noBatches}</p> : batches.map((batch) => <BatchMarks key={batch.id} batch={batch} freezers={freezers} isOnTrays={onTrays.has(batch.id)} />)}
    </section>
  );
}

function BatchMarks({ batch, freezers, isOnTrays }: { readonly batch: Batch; readonly freezers: FreezerMarksProps['freezers']; readonly isOnTrays: boolean }): ReactNode {
  const formats = useFormats();
  const mark = useCommand('batch.mark');
  const [freezerId, setFreezerId] = useState(freezers[0]?.id ?? '');
  const [atMs, setAtMs] = useState<number | null>(null);
  const set: Readonly<Record<What, number | null>> = {
    sealed: batch.sealedAtMs, 'into-freezer': batch.intoFreezerAtMs, frozen: batch.frozenAtMs, 'out-of-freezer': batch.outOfFreezerAtMs,
  };
  const marks = Object.keys(set) as What[];
  const waits = marks.filter((what) => set[what] === null && (what !== 'frozen' || batch.intoFreezerAtMs !== null) && (what !== 'out-of-freezer' || batch.intoFreezerAtMs !== null));
  const send = async (what: What): Promise<void> => {
    await mark.send({ batchId: batch.id, what, atMs: atMs ?? Date.now(), placeId: what === 'into-freezer' ? freezerId : null });
    setAtMs(null);
  };
  return (
    <article className="stack">
      <h3>{batch.shortName} {batch.marketName}</h3>
      <ul>
        {marks.map((what) => {
          const at = set[what];
          return at === null ? null : <li key={what}>{text.done(text.marks[what], formats.moment(at))}</li>;
        })}
      </ul>
      {isOnTrays ? <p className="soft">{text.onTrays} <a className="link" href={addressOf('cold-store', 'trays', batch.id)}>{text.page.trays}</a></p> : (
        <>
          {batch.intoFreezerAtMs === null && freezers.length > 1 ? <Pick label={text.freezer} value={freezerId} choices={freezers.map((each) => ({ id: each.id, text: each.name }))} onChange={setFreezerId} /> : null}
          <MomentField key={waits.length} label={text.when} value={null} onChange={setAtMs} />
          <div className="row">
            {waits.map((what) => <PressButton key={what} isDisabled={mark.busy} onPress={() => { void send(what); }}>{text.marks[what]}</PressButton>)}
          </div>
          <ProblemNote failure={mark.failure} />
        </>
      )}
    </article>
  );
}
