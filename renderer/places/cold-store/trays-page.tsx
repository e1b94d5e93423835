import { useState, type ReactNode } from 'react';
import type { TrayView } from '../../../app/contract/requests/cold-store.ts';
import type { Point } from '../../../app/contract/requests/smokehouse.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { useFormats } from '../../parts/format.ts';
import { MomentField } from '../../parts/moment-field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { EnterReadings } from '../../readings/enter-readings.tsx';
import { words } from '../../words/words.ts';
import { MakeTray } from './make-tray.tsx';

const text = words.coldStore.trays;
/** Trays that came out are found on the record. */
const SHOWN = 12;

/** A tray into the freezer, and what becomes of those that lie there. @param batchId whose packs are to be put in */
export function TraysPage({ batchId }: { readonly batchId: string | null }): ReactNode {
  const list = useAsk('tray.list', { batchId: null });
  const trays = (list.data?.trays ?? []).slice(0, SHOWN);
  return (
    <div className="halves">
      <MakeTray batchId={batchId} />
      <section className="sheet stack">
        <h2>{text.title}</h2>
        {trays.length === 0 ? <p className="soft">{text.none}</p> : trays.map((tray) => <TrayCard key={tray.id} tray={tray} />)}
      </section>
    </div>
  );
}

type How = keyof typeof text.hows;

function TrayCard({ tray }: { readonly tray: TrayView }): ReactNode {
  const formats = useFormats();
  const mark = useCommand('tray.mark');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [how, setHow] = useState<How>(tray.probeIn === undefined ? 'touch' : `probe-in-${tray.probeIn}`);
  const [isEntering, setIsEntering] = useState(false);
  const hows: readonly How[] = tray.probeIn === undefined ? ['touch'] : [`probe-in-${tray.probeIn}`, 'touch'];
  const send = async (what: 'frozen' | 'out'): Promise<void> => {
    const kept = await mark.send({ trayId: tray.id, what, atMs: atMs ?? Date.now(), how: what === 'frozen' ? how : null });
    if (kept !== null) setAtMs(null);
  };
  const point: Point | null = tray.pointId === null ? null : { id: tray.pointId, name: tray.probeName, role: 'piece', batchId: tray.batchId, thicknessMm: null, rackPlace: '', instrumentId: null, instrumentName: '' };
  return (
    <article className="stack tray-card">
      <h3 className="any-name">{text.head(tray.name, tray.batchName, tray.marketName, tray.packs)}</h3>
      <p>
        {[
          text.into(tray.placeName, formats.moment(tray.intoFreezerAtMs)),
          tray.frozenAtMs === null || tray.frozenHow === null ? text.notFrozen : text.frozenAt(formats.moment(tray.frozenAtMs), text.hows[tray.frozenHow]),
          ...(tray.outAtMs === null ? [] : [text.outAt(formats.moment(tray.outAtMs))]),
          ...(tray.probeTicks === null || tray.probeAtMs === null ? [] : [text.probeShows(formats.temperature(tray.probeTicks), formats.moment(tray.probeAtMs))]),
        ].join('; ')}
      </p>
      {tray.outAtMs !== null ? null : (
        <>
          {tray.frozenAtMs === null && hows.length > 1 ? <Choices label={text.how} value={how} choices={hows.map((id) => ({ id, text: text.hows[id] }))} onChange={setHow} /> : null}
          <MomentField key={`${tray.frozenAtMs ?? 0}`} label={text.markedAt} value={null} onChange={setAtMs} />
          <div className="row">
            {(['frozen', 'out'] as const).filter((what) => what === 'out' || tray.frozenAtMs === null).map((what) => (
              <PressButton key={what} look={what === 'frozen' ? 'next' : 'plain'} label={text.markWhat(text.mark[what], tray.name)} isDisabled={mark.busy} onPress={() => { void send(what); }}>{text.mark[what]}</PressButton>
            ))}
            {point === null ? null : <PressButton look="quiet" onPress={() => setIsEntering(true)}>{text.enter}</PressButton>}
          </div>
          <ProblemNote failure={mark.failure} />
        </>
      )}
      {isEntering && point !== null ? <EnterReadings points={[point]} needs={[]} onClose={() => setIsEntering(false)} /> : null}
    </article>
  );
}
