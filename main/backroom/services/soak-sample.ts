/** A piece out of the brine that was analysed: the forecast learns from it, no check does. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { SoakSample } from '../../../app/contract/requests/brine-bench.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { soakMarkMs } from './soak-bath.ts';
import { sayPaper, soakPaper } from './paper-sheet-entry.ts';
import { thicknessFault } from './soak-thickness.ts';
import { readTypedPercent } from './typed-percent.ts';
import { refuseBefore, refuseFuture, sayInstant } from './when.ts';

type Sampling = Parsed<'soak.sample'>;

/**
 * Keeps a sample, its decimals as typed.
 * @returns every sample of the batch, in the order they were entered
 * @throws Refusal: figures that can't be, a time before the soak began, after the fish went into the smoker or to come, a dry cure
 */
export function keepSample(room: BookRoom, input: Sampling): SoakSample[] {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseDryCure(batch);
  refuseWrongTime(room, batch, input.takenAtMs);
  const fault = thicknessFault(input.thicknessMm);
  if (fault !== undefined) refuseInput(fault.problem.message, ['thicknessMm'], fault.problem.remedy ?? 'Measure it again.');
  const salt = readTypedPercent(input.saltPercent, ['saltPercent'], 'salt');
  const moisture = readTypedPercent(input.moisturePercent, ['moisturePercent'], 'moisture');
  if (moisture.percent === 0) refuseInput('Fish is never without moisture.', ['moisturePercent'], 'Type the moisture of the piece in per cent.');
  if (salt.percent + moisture.percent > 100) {
    refuseInput(`Salt ${salt.text} % and moisture ${moisture.text} % are more than the whole piece.`, ['moisturePercent'], 'Read both again: per cent of the brined piece.');
  }
  const paper = soakPaper(room, batch, input);
  const sample: SoakSample = {
    id: room.newId(), batchId: batch.id, takenAtMs: input.takenAtMs, thicknessMm: input.thicknessMm, saltPercent: salt.text, moisturePercent: moisture.text,
    how: input.how, initials: actingPerson(room).initials, enteredAtMs: room.clock.nowMs(), ...paper,
  };
  refuseTwice(room, sample);
  room.book.shelf('soakSamples').put(sample);
  room.book.record({
    kind: 'soak.sample', subjectId: batch.id, happenedAtMs: sample.takenAtMs,
    summary: `A piece of ${batch.shortName}, ${sample.thicknessMm} mm, taken out at ${sayInstant(room, sample.takenAtMs)}: salt ${salt.text} %, moisture ${moisture.text} %, by ${sample.how}${sayPaper(paper)}. It teaches the forecast and proves nothing.`,
    after: sample,
  });
  room.changed('batch', [batch.id]);
  return samplesOf(room, batch.id);
}

/** One piece analysed once is one sample: twice in the book it would teach the forecast twice. */
function refuseTwice(room: BookRoom, { batchId, takenAtMs, thicknessMm, saltPercent, moisturePercent }: SoakSample): void {
  const same = samplesOf(room, batchId).find((one) => one.takenAtMs === takenAtMs && one.thicknessMm === thicknessMm && one.saltPercent === saltPercent && one.moisturePercent === moisturePercent);
  if (same === undefined) return;
  throw new Refusal('CONFLICT', `That piece is in the book already: ${same.initials} entered it at ${sayInstant(room, same.enteredAtMs)}.`, { remedy: 'Nothing needs to be entered again. Of another piece, give its own time or thickness.' });
}

/** The samples of a batch, in the order they were entered. */
export function samplesOf(room: BookRoom, batchId: string): SoakSample[] {
  return room.book.shelf('soakSamples').where('batchId', batchId);
}

/** Refuses what needs a bath, for a dry cure, which has none. */
export function refuseDryCure(batch: Pick<StoredBatch, 'shortName' | 'card'>): void {
  if (batch.card.cure === 'wet') return;
  throw new Refusal('RULE_BLOCKS', `${batch.shortName} is dry cured, and the forecast is of fish in a brine.`, { remedy: 'Go by the card’s estimate, and have the finished fish analysed.' });
}

function refuseWrongTime(room: BookRoom, batch: StoredBatch, takenAtMs: number): void {
  const startMs = soakMarkMs(batch, 'start');
  if (startMs === undefined) throw new Refusal('RULE_BLOCKS', `The soak of ${batch.shortName} has not started.`, { remedy: 'Log its start first.' });
  refuseFuture(room, takenAtMs, ['takenAtMs']);
  refuseBefore(room, takenAtMs, 'The piece', { what: 'the start of the soak', atMs: startMs }, ['takenAtMs']);
  if (takenAtMs === startMs) refuseInput('A piece taken out in the minute it went in tells nothing.', ['takenAtMs'], 'Give the time it came out of the brine.');
  const inAtMs = batch.loadId === null ? null : room.book.shelf('loads').need(batch.loadId).inAtMs;
  if (inAtMs !== null && takenAtMs > inAtMs) {
    refuseInput(`${batch.shortName} went into the smoker at ${sayInstant(room, inAtMs)}: a piece taken later is not out of the brine.`, ['takenAtMs'], 'Enter finished fish as a laboratory result of the batch.');
  }
}
