import { useId, useState, type ReactNode } from 'react';
import type { PackWhere } from '../../../app/contract/requests/cold-store.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.coldStore.scan;
type What = keyof typeof text.whats;
const WHATS: readonly What[] = ['into-store', 'out-of-store', 'served', 'returned', 'destroyed'];
const ASKS_WHY: readonly What[] = ['returned', 'destroyed'];

interface MoveProps {
  readonly packs: readonly PackWhere[];
  readonly spots: readonly { readonly placeId: string; readonly spot: string }[];
  onMoved(count: number): void;
}

/** What happens to the packs on the list; a place offers the shelves used before. */
export function MovePacks({ packs, spots, onMoved }: MoveProps): ReactNode {
  const office = useAsk('office.get', {});
  const move = useCommand('pack.move');
  const { onDuty } = useKitchen();
  const [what, setWhat] = useState<What>('into-store');
  const [placeId, setPlaceId] = useState('');
  const [spot, setSpot] = useState('');
  const [why, setWhy] = useState('');
  const [hasInitialled, setHasInitialled] = useState(false);
  const asksInitials = what === 'served' && onDuty?.role === 'manager';
  const places = (office.data?.places ?? []).filter(({ kind }) => kind !== 'brining-room');
  // Frozen packs go into a freezer unless somebody says otherwise.
  const usual = places.find(({ kind }) => kind === (packs.some(({ store }) => store === 'frozen') ? 'freezer' : 'cooler')) ?? places[0];
  const chosen = placeId === '' ? (usual?.id ?? '') : placeId;
  const send = async (): Promise<void> => {
    const answer = await move.send({ packIds: packs.map(({ packId }) => packId), what, placeId: what === 'into-store' ? chosen : null, spot: what === 'into-store' ? spot : '', atMs: Date.now(), why, ...(asksInitials && hasInitialled ? { initialsForError: true } : {}) });
    if (answer !== null) onMoved(answer.moved);
  };
  return (
    <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
      <Choices label={text.what} value={what} choices={WHATS.map((id) => ({ id, text: text.whats[id] }))} onChange={setWhat} />
      {what === 'into-store' ? (
        <div className="form-grid">
          <Pick label={text.place} value={chosen} choices={places.map(({ id, name }) => ({ id, text: name }))} onChange={setPlaceId} />
          <SpotField value={spot} spots={spots.filter((each) => each.placeId === chosen).map((each) => each.spot)} onChange={setSpot} label={text.spot} />
        </div>
      ) : null}
      {ASKS_WHY.includes(what) ? <Field label={text.why} value={why} fault={faultOf(move.failure, 'why')} onChange={setWhy} /> : null}
      {asksInitials ? <Choices label={words.handOver.initials} value={hasInitialled ? 'yes' : 'no'} choices={[{ id: 'no', text: words.handOver.sheetNo }, { id: 'yes', text: words.handOver.sheetYes }]} onChange={(value) => setHasInitialled(value === 'yes')} /> : null}
      <ProblemNote failure={move.failure} />
      <div><PressButton look="next" type="submit" isDisabled={move.busy}>{text.move[what]}</PressButton></div>
    </form>
  );
}

interface SpotProps {
  readonly label: string;
  readonly value: string;
  readonly spots: readonly string[];
  onChange(value: string): void;
}

/** A shelf or box as typed, with those used before to choose from. */
export function SpotField({ label, value, spots, onChange }: SpotProps): ReactNode {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <div className="box">
        <input id={id} type="text" list={`${id}-used`} maxLength={40} value={value} onChange={(event) => onChange(event.currentTarget.value)} />
      </div>
      <datalist id={`${id}-used`}>{[...new Set(spots)].map((spot) => <option key={spot} value={spot} label={spot} aria-label={spot} />)}</datalist>
    </div>
  );
}
