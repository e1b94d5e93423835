/**
 * Released batches judged again when a later record changes their evidence. Where the release no longer stands on
 * the record, what was done on its strength becomes a list of work: decide again, the printed labels, the packs.
 */
import type { WorkItem } from '../../../app/contract/requests/evidence.ts';
import type { CheckResultWire, Decision, SetResultWire } from '../../../app/contract/requests/verdict.ts';
import { isMet } from '../../../app/limits/verdict.ts';
import { listText } from '../../../app/limits/words.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { differenceOfLots } from './correction-lots.ts';
import { resultOn } from './judgements.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { callWork, packWork } from './pack-where-work.ts';
import { packsOf } from './packs-of-batch.ts';
import { nameOf, standingDecision } from './release.ts';
import { openItemsOf, openWork } from './work-items.ts';

/**
 * Judges released batches again, as they were released.
 * @param why what changed, in a few words: “the check of Probe 2 on 26 Nov”
 * @returns the names of the batches whose release no longer stands: those that must be decided again already among them
 */
export function rejudge(room: BookRoom, batches: Iterable<StoredBatch>, why: string): string[] {
  const affected: string[] = [];
  for (const batch of new Set(batches)) {
    const release = standingDecision(room, batch.id);
    if (release?.decision !== 'release') continue;
    // What must be decided again already isn't judged once more: only a person's decision makes it stand. Whom to call for it may grow.
    const open = openItemsOf(room, batch.id).find(({ what }) => what === 'decide-again');
    const reason = open !== undefined ? '' : reasonAgainst(room, batch, release);
    if (reason === undefined) continue;
    affected.push(nameOf(batch));
    if (open !== undefined) {
      openWork(room, batch, newCalls(room, batch, release, open), `More packs of ${nameOf(batch)} are to be called for: ${why}.`);
      continue;
    }
    const text = `${capital(why).replace(/\.$/, '')}: ${reason}`;
    openWork(room, batch, workOf(room, batch, release, text), `The release of ${nameOf(batch)} no longer stands on its record: ${text}`);
  }
  return affected;
}

/** Calls that weren’t asked for yet since the batch must be decided again, done ones among those that were. */
function newCalls(room: BookRoom, batch: StoredBatch, release: Decision, since: WorkItem): Pick<WorkItem, 'what' | 'text'>[] {
  const asked = room.book.shelf('workItems').where('batchId', batch.id).filter(({ what, sinceMs, done }) => what === 'call' && (done === null || sinceMs >= since.sinceMs));
  const calls = callWork(room, batch, release).filter(({ text }) => !asked.some((item) => item.text.includes(text)));
  return calls.length === 0 || reasonAgainst(room, batch, release) === undefined ? [] : calls;
}

/** Every release that stands on a batch of these loads. */
export function releasedOf(room: BookRoom, batchIds: readonly string[]): StoredBatch[] {
  return [...new Set(batchIds)].map((id) => room.book.shelf('batches').need(id)).filter((batch) => standingDecision(room, batch.id)?.decision === 'release');
}

/**
 * Checks that meet only within the thermometers' error now and that nobody put initials to for that: initials are
 * given to what was close at the release, not to whatever comes close later. What is due before it leaves is left to
 * that gate.
 */
export function uninitialled(room: BookRoom, batch: StoredBatch, release: Decision, deciding: SetResultWire): CheckResultWire[] {
  const close = deciding.checks.filter(({ verdict, gate }) => verdict === 'meets-within-error' && gate !== 'leave');
  const then = resultOn(room, batch.id, release.judgementDigest);
  // Releases of older books have no judgement on file, and did not say what their initials were for.
  if (then === undefined) return release.initialsForError || release.verdictWords.includes('within the thermometer’s error') ? [] : close;
  return close.filter(({ checkId }) => !then.checks.some((check) => check.checkId === checkId && check.verdict === 'meets-within-error'));
}

/** Why a release no longer stands; undefined where it does. */
function reasonAgainst(room: BookRoom, batch: StoredBatch, release: Decision): string | undefined {
  const difference = differenceOfLots(room, batch);
  if (difference !== undefined) return difference;
  const { gates: { pack: gate }, deciding } = judgeBatch(room, batch, { pack: release.pack, store: release.store });
  if (gate.state !== 'may' && gate.state !== 'initials') return gate.blocking.map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ');
  const close = gate.state === 'initials' ? uninitialled(room, batch, release, deciding).map(({ checkId, reason }) => `${checkId} meets only within the thermometer’s error now: ${reason}`) : [];
  const said = [...close, ...brokenSince(room, batch, release, deciding).map(({ checkId, reason }) => `${checkId}: ${reason}`)];
  return said.length === 0 ? undefined : said.join(' ');
}

/**
 * Checks that are missed, and those that met when the batch was released and don't any more, at whichever gate they
 * are due. A choice between limits is missed only where each of them is, and then the whole is.
 */
function brokenSince(room: BookRoom, batch: StoredBatch, release: Decision, deciding: SetResultWire): CheckResultWire[] {
  const then = resultOn(room, batch.id, release.judgementDigest);
  const met = new Set(then?.checks.filter(({ verdict }) => isMet(verdict)).map(({ checkId }) => checkId));
  return deciding.checks.filter(({ checkId, verdict }) => (verdict === 'misses' && (deciding.verdict === 'misses' || met.has(checkId))) || (verdict === 'not-proven' && met.has(checkId)));
}

function workOf(room: BookRoom, batch: StoredBatch, release: Decision, text: string): Pick<WorkItem, 'what' | 'text'>[] {
  const packs = packsOf(room, batch.id);
  const labelled = packs.filter(({ printedCount }) => printedCount > 0);
  return [
    { what: 'decide-again', text: `${text} Decide again about ${nameOf(batch)}.` },
    ...(labelled.length === 0 ? [] : [{ what: 'labels' as const, text: `Take the labels off, or mark the packs HOLD: ${listText(labelled.map(({ code }) => code))}.` }]),
    ...packWork(room, batch, release),
  ];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
