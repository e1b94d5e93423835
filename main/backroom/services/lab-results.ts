/** Laboratory results of finished fish: exact decimals as typed, never rounded. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { LabResult } from '../../../app/contract/requests/verdict.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { Stored } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { rejudge, releasedOf } from './rejudging.ts';
import { sayDay, zoneOf } from './when.ts';
import { loadOfBatch } from './taken-out.ts';

/** The contract allows four decimals, so hundred per cent in its last place is this. */
const PLACES = 4;
const HUNDRED = 1_000_000n;

/**
 * Keeps a result of salt, moisture and, where nitrite was used, nitrite.
 * @throws Refusal: more than 100 % together, nothing at all, a sampling day to come or before the fish was finished
 */
export function recordLabResult(room: BookRoom, input: Parsed<'lab.record'>): LabResult {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseImpossible(input);
  refuseWrongDay(room, input);
  const result: LabResult = {
    id: room.newId(), sampledOn: input.sampledOn, sample: input.sample, laboratory: input.laboratory,
    saltPercent: input.saltPercent, moisturePercent: input.moisturePercent, nitritePpm: input.nitritePpm,
    waterPhasePercent: waterPhaseForDisplay(input.saltPercent, input.moisturePercent),
    enteredBy: actingPerson(room).initials, enteredAtMs: room.clock.nowMs(),
  };
  room.book.shelf('labResults').put({ batchId: batch.id, ...result });
  room.book.record({
    kind: 'lab.record', subjectId: batch.id, happenedAtMs: null,
    summary: `Laboratory result for ${batch.shortName} from ${input.laboratory}: salt ${input.saltPercent} %, moisture ${input.moisturePercent} %${input.nitritePpm === null ? '' : `, nitrite ${input.nitritePpm} ppm`}.`,
    after: result,
  });
  room.changed('verdict', [batch.id]);
  rejudge(room, releasedOf(room, [batch.id]), `a laboratory result of ${sayDay(input.sampledOn)} was entered`);
  return result;
}

/** The results of a batch in the order they were entered, as they cross the contract. */
export function labResultsOf(room: BookRoom, batchId: string): LabResult[] {
  return room.book.shelf('labResults').where('batchId', batchId).map(withoutBatch);
}

function withoutBatch({ batchId: _batchId, ...result }: Stored<'labResults'>): LabResult {
  return result;
}

function refuseImpossible(input: Parsed<'lab.record'>): void {
  const salt = placesOf(input.saltPercent);
  const moisture = placesOf(input.moisturePercent);
  if (salt + moisture > HUNDRED) {
    refuseInput(`Salt ${input.saltPercent} % and moisture ${input.moisturePercent} % are more than the whole fish.`, ['moisturePercent'], 'Read both from the laboratory’s sheet again: per cent of the finished fish.');
  }
  if (moisture === 0n) refuseInput('Smoked fish is never without moisture.', ['moisturePercent'], 'Read the moisture from the laboratory’s sheet.');
}

function refuseWrongDay(room: BookRoom, input: Parsed<'lab.record'>): void {
  const batch = room.book.shelf('batches').need(input.batchId);
  const outAtMs = loadOfBatch(room, batch)?.outAtMs ?? null;
  if (outAtMs === null) {
    throw new Refusal('RULE_BLOCKS', `${batch.shortName} has not come out of the smoker, and a laboratory result is of finished fish.`, {
      remedy: 'Mark the load out first.',
    });
  }
  const today = localDay(room.clock.nowMs(), zoneOf(room));
  if (input.sampledOn > today) refuseInput(`${sayDay(input.sampledOn)} is still to come.`, ['sampledOn'], 'Give the day the sample was taken.');
  const finishedOn = localDay(outAtMs, zoneOf(room));
  if (input.sampledOn < finishedOn) {
    refuseInput(`${batch.shortName} came out of the smoker on ${sayDay(finishedOn)}, after a sample of ${sayDay(input.sampledOn)}.`, ['sampledOn'], 'Give the day the finished fish was sampled, or choose the batch it came from.');
  }
}

function placesOf(text: string): bigint {
  const [whole = '', decimals = ''] = text.split('.');
  return BigInt(whole + decimals.padEnd(PLACES, '0'));
}

/** Salt over salt and water in per cent; for display only, the judge works on the exact decimals. */
function waterPhaseForDisplay(saltPercent: string, moisturePercent: string): number {
  const salt = Number(saltPercent);
  return (100 * salt) / (salt + Number(moisturePercent));
}
