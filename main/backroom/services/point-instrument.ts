/** The thermometer of a measuring point, and the change of it midway. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Stored, StoredLoad, StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { refuseInput } from './field-refusal.ts';
import { pointsOf } from './load-view.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

export const pointInstrumentServices = { 'point.moveInstrument': moveInstrument } satisfies Services<'point.moveInstrument'>;

/** Which thermometer sat in a point at an instant: for readings that come later than the change. */
export function instrumentAt(point: StoredPoint, atMs: number): string | null {
  const earlier = point.earlierInstruments?.find((one) => atMs < one.untilMs);
  return earlier === undefined ? point.instrumentId : earlier.instrumentId;
}

/** @throws Refusal when the point is of no running load, the thermometer is in it or in another place already, or the time is out of order */
function moveInstrument(room: BookRoom, { pointId, instrumentId, atMs, why }: Parsed<'point.moveInstrument'>): Output<'point.moveInstrument'> {
  const points = room.book.shelf('points');
  const point = points.need(pointId);
  const load = point.loadId === null ? undefined : room.book.shelf('loads').need(point.loadId);
  if (load === undefined) throw new Refusal('RULE_BLOCKS', `${point.name} is no piece or chamber of a load.`, { remedy: 'A place is read with any thermometer; choose it as you enter the readings.' });
  if (load.cooledAtMs !== null) throw new Refusal('RULE_BLOCKS', `The record of load ${load.number} is closed.`, { remedy: 'Nothing more is read in it.' });
  const instrument = instrumentId === null ? null : room.book.shelf('instruments').need(instrumentId);
  if (instrumentId === point.instrumentId) refuseInput(`${point.name} is read with ${instrument?.name ?? 'no thermometer of its own'} already.`, ['instrumentId'], 'Choose the one that it is read with from now on.');
  refuseFuture(room, atMs, ['atMs']);
  refuseBefore(room, atMs, 'The change', { what: `opening load ${load.number}`, atMs: load.openedAtMs }, ['atMs']);
  refuseBefore(room, atMs, 'The change', { what: 'the change before', atMs: point.earlierInstruments?.at(-1)?.untilMs ?? null }, ['atMs']);
  if (instrument !== null) refuseTaken(room, instrument, point, load);
  const earlier = [...(point.earlierInstruments ?? []), { instrumentId: point.instrumentId, untilMs: atMs }];
  const moved: StoredPoint = { ...point, instrumentId, earlierInstruments: earlier };
  points.put(moved);
  room.book.record({
    kind: 'point.moveInstrument', subjectId: load.id, happenedAtMs: atMs, why, before: point, after: moved,
    summary: `${point.name} of load ${load.number}: read with ${instrument?.name ?? 'a thermometer by hand'} from ${sayInstant(room, atMs)} on.`,
  });
  room.changed('load', [load.id]);
  return { pointId, instrumentId, earlier };
}

/** A wired probe or logger can be in one place only; a hand thermometer goes from piece to piece. */
function refuseTaken(room: BookRoom, instrument: Stored<'instruments'>, mine: StoredPoint, own: StoredLoad): void {
  if (instrument.kind === 'hand-thermometer') return;
  for (const load of room.book.shelf('loads').all()) {
    if (load.outAtMs !== null && load.id !== own.id) continue;
    const other = pointsOf(room, load).find((point) => point.id !== mine.id && point.instrumentId === instrument.id);
    if (other !== undefined) refuseInput(`${instrument.name} is in ${other.name} of load ${load.number} and can’t be in ${mine.name} too.`, ['instrumentId'], 'Choose another, or move that one first.');
  }
}
