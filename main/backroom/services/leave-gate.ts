/** What lets a pack leave: the leave gate of its batch as it was released, and what is known of the pack itself. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { Tray } from '../../../app/contract/requests/packs-where.ts';
import type { Decision, GateLine } from '../../../app/contract/requests/verdict.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import type { Keeping } from './judging/compose.ts';
import { lastDayOf } from './label-input.ts';
import { whyLabelLies, wordsOfFish } from './label-still-true.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { whereWords } from './pack-where.ts';
import { frozenOf, isInto, leftMs, wasThere } from './pack-where-cold.ts';
import { cameBack, isGone, lastMoveOf, movesOf } from './pack-where-last.ts';
import { whyThawedWarm } from './pack-where-thawed.ts';
import { decisionsOf, nameOf } from './release.ts';
import { type FoundAway, tickedAway } from './recall-ticks.ts';
import { needStandingRelease } from './standing-release.ts';
import { packTraysOf, trayOfPack } from './trays-of-batch.ts';
import { sayDay, sayInstant, zoneOf } from './when.ts';

export type Purpose = 'handed over' | 'served';

/** People type whole minutes. */
const MINUTE_MS = 60_000;
/** A pack that thawed is eaten within 48 hours: our own careful choice, no text gives it. */
const THAWED_MS = 48 * 3_600_000;

const TICKED: Record<FoundAway, string> = { 'with-them': 'with those who have it', eaten: 'eaten', served: 'served', destroyed: 'destroyed', 'not-found': 'not found' };

/** To what end packs go, and when. */
export interface Going {
  readonly purpose: Purpose;
  readonly atMs: number;
  /** A manager's, for what meets only within the thermometers' error. */
  readonly initialsForError?: boolean | undefined;
}

/**
 * Lets packs go whose batches may leave. Nobody's word stands in for a miss or for what isn't proven; a manager's
 * initials only for what meets within the thermometers' error.
 * @throws Refusal RULE_BLOCKS with the reason and what helps; CONFLICT: a pack that is gone
 */
export function needLeave(room: BookRoom, packs: readonly Pack[], going: Going): void {
  for (const batchId of new Set(packs.map((pack) => pack.batchId))) {
    const batch = room.book.shelf('batches').need(batchId);
    const own = packs.filter((one) => one.batchId === batchId);
    const kept = keptOf(room, batch, needBatchLeave(room, batch, going, own.map(({ id }) => id)), own);
    for (const pack of own) {
      const why = whyPackStays(room, pack, kept, going);
      if (why !== undefined) throw new Refusal(why.code, `Pack ${pack.code} can’t be ${going.purpose}: ${why.message}`, { remedy: why.remedy });
    }
  }
}

/**
 * The release a batch leaves on. What left earlier is judged as it stood then: what was read since proves nothing of it.
 * @param packIds those that go: what lies on other trays is still freezing, perhaps
 */
export function needBatchLeave(room: BookRoom, batch: StoredBatch, { purpose, atMs, initialsForError }: Going, packIds?: readonly string[]): Decision {
  const release = needStandingRelease(room, batch);
  refuseUnreleasedThen(room, batch, { purpose, atMs });
  const { leave } = judgeBatch(room, batch, { pack: release.pack, store: release.store }, undefined, { leftMs: earlierMs(room, atMs), packIds }).gates;
  if (leave.state === 'may') return release;
  if (leave.state === 'initials') {
    if (initialsForError === true && actingPerson(room).role === 'manager') return release;
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be ${purpose} yet: it meets only within the thermometer’s error. ${leave.line}`, { remedy: 'A manager looks at the record and gives initials for that.' });
  }
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be ${purpose}. ${reasonsOf(leave)}`.trim(), { remedy: remedyOf(leave) });
}

/** What left while its batch was on HOLD left against that, whatever was decided since. */
function refuseUnreleasedThen(room: BookRoom, batch: StoredBatch, { purpose, atMs }: Pick<Going, 'purpose' | 'atMs'>): void {
  const then = decisionsOf(room, batch.id).findLast((decision) => minuteOf(decision.atMs) <= minuteOf(atMs));
  if (then?.decision === 'release') return;
  const why = then === undefined ? 'it was not released yet' : `it was on HOLD (${then.initials}: ${then.reason})`;
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be ${purpose} at ${sayInstant(room, atMs)}: ${why}.`, { remedy: 'Check the time. If packs did leave then, tell a manager: the batch is held again, and whoever has them is called.' });
}

/** The packs that can be asked for: those on trays that are solid, where some are; else undefined, which asks for all. */
export function solidPacksOf(room: BookRoom, batchId: string, store: Decision['store']): readonly string[] | undefined {
  const solid = store === 'frozen' ? packTraysOf(room, batchId).filter(({ frozenAtMs }) => frozenAtMs !== null) : [];
  return solid.length === 0 ? undefined : solid.flatMap(({ packIds }) => packIds);
}

function minuteOf(atMs: number): number {
  return Math.floor(atMs / MINUTE_MS);
}

function earlierMs(room: BookRoom, atMs: number): number | undefined {
  return minuteOf(atMs) < minuteOf(room.clock.nowMs()) ? atMs : undefined;
}

function reasonsOf(gate: GateLine): string {
  // What the gate asks beside the checks, as the freezing or the label, has no number of its own.
  return [gate.line, ...gate.blocking.map(({ checkId, reason }) => (/^[A-Z]/.test(checkId) ? `${checkId}: ${reason}` : reason))].join(' ');
}

function remedyOf(gate: GateLine): string {
  const needed = [...new Set(gate.blocking.map((one) => one.needed).filter((text) => text !== ''))];
  const ways = gate.ways.length === 0 ? [] : [`What may be done: ${gate.ways.join(' ')}`];
  return [...(needed.length === 0 ? [] : [`Needed: ${needed.join(' ')}`]), ...ways, 'Until then it stays here.'].join(' ');
}

interface WhyNot {
  readonly code: 'CONFLICT' | 'RULE_BLOCKS';
  readonly message: string;
  readonly remedy: string;
}

/** What is asked of a pack beside the pack itself. */
interface Kept {
  readonly batch: StoredBatch;
  readonly store: Decision['store'];
  /** The batch's trays of packs. */
  readonly trays: readonly Tray[];
  /** What a label would say of it now. */
  readonly words: readonly string[];
}

/** @param packs of the batch, at least one of them where it has any */
export function keptOf(room: BookRoom, batch: StoredBatch, { pack, store }: Keeping, [first]: readonly Pack[]): Kept {
  return { batch, store, trays: packTraysOf(room, batch.id), words: first === undefined ? [] : wordsOfFish(room, batch, { pack, store }, first) };
}

/** Why one pack of a batch that may leave stays; undefined where it may go. */
export function whyPackStays(room: BookRoom, pack: Pack, kept: Kept, going: Going): WhyNot | undefined {
  const last = lastMoveOf(room, pack.id);
  if (isGone(last)) return { code: 'CONFLICT', message: `it was ${whereWords(room, pack, last)}.`, remedy: 'A pack is given once. Look at its number again.' };
  if (cameBack(room, pack.id)) {
    const back = movesOf(room, pack.id).findLast(({ what }) => what === 'returned');
    return blocked(`it was ${whereWords(room, pack, back)}, and nothing shows how it was kept in between.`, 'Mark it destroyed.');
  }
  const ticked = tickedAway(room, pack.id);
  if (ticked !== undefined) return blocked(`in the recall of ${ticked.label} it was ticked as ${TICKED[ticked.where]}, and nothing shows how it was kept since.`, 'Mark it destroyed.');
  const lies = whyLabelLies(room, pack, kept.words);
  if (lies !== undefined) return blocked(lies, 'Take the old label off, and print it anew at the packing table.');
  return kept.store === 'frozen' ? whyFrozenStays(room, pack, kept, going) : whyChilledStays(room, pack, kept, going);
}

/** Chilled packs that nobody put anywhere are judged by every cooler; of one that was put somewhere its moves tell where it lay. */
function whyChilledStays(room: BookRoom, pack: Pack, { batch }: Kept, { atMs }: Pick<Going, 'atMs'>): WhyNot | undefined {
  const outMs = leftMs(room, pack.id, { isThere: (move) => isInto(room, 'cooler', move), fromMs: -Infinity, atMs });
  const lastDay = lastDayOf(room, batch, pack);
  if (lastDay !== null && localDay(atMs, zoneOf(room)) > lastDay) return blocked(`its shelf life ended on ${sayDay(lastDay)}, as its label says.`, 'Mark it destroyed.');
  if (outMs === undefined) return undefined;
  return blocked(`it was in no cooler from ${sayInstant(room, outMs)} on, and nothing shows how it was kept then.`, 'Mark it destroyed, unless the move was entered by mistake: then ask a manager to hold the batch and look.');
}

function whyFrozenStays(room: BookRoom, pack: Pack, { batch, trays }: Kept, { purpose, atMs, initialsForError }: Going): WhyNot | undefined {
  const tray = trayOfPack(trays, pack.id);
  if (trays.length > 0 && tray === undefined) return blocked('it lies on none of the batch’s trays, so nothing shows that it was frozen.', 'Put it on a tray in the freezer, and mark when it is frozen solid.');
  if (trays.length === 0 && !wasThere(room, batch, pack)) return blocked(`it was sealed after ${nameOf(batch)} went into the freezer, so nothing shows that it was frozen.`, 'Put the packs of the batch on trays in the freezer, and mark when each is frozen solid.');
  const frozen = frozenOf(room, batch, pack, trays, atMs);
  if (frozen === undefined) return tray === undefined ? undefined : blocked(`${tray.name} is not marked frozen solid.`, 'Feel it or read its probe, and mark it at the cold store.');
  const outMs = frozen.leftMs;
  if (outMs === undefined) return undefined;
  if (outMs <= frozen.frozenMs) return blocked(`it was taken out of the freezer at ${sayInstant(room, outMs)}, before it was marked frozen solid.`, 'Mark it destroyed, unless the move was entered by mistake: then ask a manager to hold the batch and look.');
  // What is served here was thawed for it; what leaves is frozen, and what thawed is not frozen again.
  if (purpose === 'handed over') return blocked(`it came out of the freezer at ${sayInstant(room, outMs)}.`, 'Frozen fish leaves frozen, and is not frozen again (1 NYCRR 262.8(c)). Serve it here within 48 hours (Alderbook’s own careful choice), or destroy it.');
  if (atMs - outMs > THAWED_MS) return blocked(`it came out of the freezer at ${sayInstant(room, outMs)}, more than 48 hours before (Alderbook’s own careful choice; no text gives it).`, 'Mark it destroyed.');
  const warm = whyThawedWarm(room, pack, { outMs, atMs, mayBeClose: initialsForError === true && actingPerson(room).role === 'manager' });
  return warm === undefined ? undefined : blocked(`it came out of the freezer at ${sayInstant(room, outMs)}, and ${warm}`, 'Mark it destroyed; move the next one into a cooler to thaw, and read that.');
}

function blocked(message: string, remedy: string): WhyNot {
  return { code: 'RULE_BLOCKS', message, remedy };
}
