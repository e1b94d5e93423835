/** The log of a soak: its start once, turns, its end once, each with the temperatures read. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { SoakEvent } from '../../../app/contract/requests/brine-bench.ts';
import { exactTicks } from '../../../app/measures/temperature.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { lotsOf, stageOf } from './batch-view.ts';
import { refuseInput } from './field-refusal.ts';
import { sayPaper, soakPaper } from './paper-sheet-entry.ts';
import { readStand, type SoakStand } from './soak-tub.ts';
import { readTypedTemperature } from './typed-temperature.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

type Logging = Parsed<'soak.log'>;

/** A brine boils a little above this; a warmer figure is a slip. */
const WARMEST_BRINE_TICKS = exactTicks(212, 'F');
/** No brining room is as warm as this. */
const WARMEST_ROOM_TICKS = exactTicks(130, 'F');
const WORDS = { start: 'The start of the soak', turn: 'A turn', end: 'The end of the soak' } as const;

/**
 * Adds a step to a batch's soak.
 * @returns the batch with the step
 * @throws Refusal: a second start or end (CONFLICT), no start yet, a step out of order or to come, no brine
 *   temperature at the start, temperatures that can't be, a place or tub that can't be (see `readStand`)
 */
export function logSoak(room: BookRoom, input: Logging): StoredBatch {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseWrongStep(room, batch, input.what);
  refuseFuture(room, input.atMs, ['atMs']);
  refuseWrongTime(room, batch, input);
  if (input.what === 'start' && input.brine === null && batch.card.cure === 'wet') {
    refuseInput('The brine’s temperature at the start is missing.', ['brine'], 'Put a thermometer into the brine and type what it shows: the soak is judged by it.');
  }
  const stand = readStand(room, batch, input);
  const paper = soakPaper(room, batch, input);
  const event: SoakEvent = {
    what: input.what, atMs: input.atMs,
    brineTicks: warmerTicks(input.brine, 'brine', WARMEST_BRINE_TICKS),
    roomTicks: warmerTicks(input.room, 'room', WARMEST_ROOM_TICKS),
    initials: actingPerson(room).initials, enteredAtMs: room.clock.nowMs(), ...paper,
  };
  const logged: StoredBatch = { ...batch, ...stand, soak: [...batch.soak, event] };
  room.book.shelf('batches').put(logged);
  room.book.record({
    kind: `soak.${input.what}`, subjectId: batch.id, happenedAtMs: input.atMs,
    summary: `${summaryOf(batch, input)} at ${sayInstant(room, input.atMs)}${temperatureWords(input)}${input.what === 'start' ? standWords(room, stand) : ''}${sayPaper(paper)}.`,
    before: { soak: batch.soak }, after: input.what === 'start' ? { soak: logged.soak, ...stand } : { soak: logged.soak },
  });
  room.changed('batch', [batch.id]);
  room.changed('verdict', [batch.id]);
  return logged;
}

function refuseWrongStep(room: BookRoom, batch: StoredBatch, what: Logging['what']): void {
  const started = batch.soak.find((event) => event.what === 'start');
  const ended = batch.soak.find((event) => event.what === 'end');
  if (stageOf(room, batch) === 'rejected') throw new Refusal('RULE_BLOCKS', `${batch.shortName} was rejected.`, { remedy: 'A rejected batch goes no further.' });
  if (what === 'start' && started !== undefined) {
    throw new Refusal('CONFLICT', `The soak of ${batch.shortName} started at ${sayInstant(room, started.atMs)}; that is logged already.`, { remedy: 'Log a turn or the end.' });
  }
  if (what !== 'start' && started === undefined) refuseInput(`The soak of ${batch.shortName} has not started.`, ['what'], 'Log its start first.');
  if (ended !== undefined) {
    throw new Refusal('CONFLICT', `The soak of ${batch.shortName} ended at ${sayInstant(room, ended.atMs)}; that is logged already.`, { remedy: 'Nothing more is logged after the end.' });
  }
}

function refuseWrongTime(room: BookRoom, batch: StoredBatch, input: Logging): void {
  const last = batch.soak.at(-1);
  if (last !== undefined) {
    const what = last.what === 'start' ? 'the start' : 'the turn before it';
    refuseBefore(room, input.atMs, WORDS[input.what], { what, atMs: last.atMs }, ['atMs']);
    if (input.what === 'turn' && last.what === 'turn' && input.atMs === last.atMs) {
      throw new Refusal('CONFLICT', `The turn of ${batch.shortName} at ${sayInstant(room, last.atMs)} is logged already.`, { remedy: 'Nothing needs to be logged again.' });
    }
    if (input.what === 'end' && input.atMs === last.atMs) {
      refuseInput(`The soak can’t end in the minute of ${what}.`, ['atMs'], 'Give the time the fish came out of the brine.');
    }
    return;
  }
  for (const lot of lotsOf(room, batch)) {
    refuseBefore(room, input.atMs, WORDS[input.what], { what: `receiving of lot ${lot.code}`, atMs: lot.receivedAtMs }, ['atMs']);
  }
}

/** A temperature between two ticks counts as the warmer: brine and room are judged by a maximum. */
function warmerTicks(typed: Logging['brine'], field: 'brine' | 'room', warmestTicks: number): number | null {
  if (typed === null) return null;
  const { highTicks, text } = readTypedTemperature(typed, [field]);
  if (highTicks > warmestTicks) refuseInput(`${text} °${typed.unit} is too warm for a ${field === 'brine' ? 'brine' : 'brining room'}.`, [field], 'Check the unit and the point.');
  return highTicks;
}

function summaryOf(batch: StoredBatch, { what }: Logging): string {
  const bath = batch.card.cure === 'dry' ? 'cure' : 'brine';
  if (what === 'turn') return `Turned ${batch.shortName} in its ${bath}`;
  return what === 'start' ? `${batch.shortName} went into the ${bath}` : `${batch.shortName} came out of the ${bath}`;
}

function standWords(room: BookRoom, { brinePlaceId, tub, basket, brineReused }: SoakStand): string {
  const words = [
    brinePlaceId === null ? '' : room.book.shelf('places').need(brinePlaceId).name,
    tub === '' ? '' : `tub ${tub}`, basket === '' ? '' : `basket ${basket}`,
    brineReused === null ? '' : brineReused ? 'brine used before' : 'new brine',
  ].filter((word) => word !== '');
  return words.length === 0 ? '' : `; ${words.join(', ')}`;
}

function temperatureWords({ brine, room }: Logging): string {
  const words = [brine === null ? '' : `brine ${brine.text.trim()} °${brine.unit}`, room === null ? '' : `room ${room.text.trim()} °${room.unit}`];
  const said = words.filter((word) => word !== '').join(', ');
  return said === '' ? '' : `, ${said}`;
}
