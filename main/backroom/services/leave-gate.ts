/** What lets a pack leave: the leave gate of its batch as it was released, and what is known of the pack itself. */
import type { Pack } from '../../../app/contract/requests/packing.ts';
import type { Tray } from '../../../app/contract/requests/packs-where.ts';
import type { Decision, GateLine } from '../../../app/contract/requests/verdict.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { whereWords } from './pack-where.ts';
import { isGone, lastMoveOf } from './pack-where-last.ts';
import { nameOf } from './release.ts';
import { needStandingRelease } from './standing-release.ts';
import { packTraysOf, trayOfPack } from './trays-of-batch.ts';
import { sayInstant } from './when.ts';

export type Purpose = 'handed over' | 'served';

/**
 * Lets packs go whose batches may leave. Nobody's word stands in for a miss or for what isn't proven; a manager's
 * initials only for what meets within the thermometers' error.
 * @throws Refusal RULE_BLOCKS with the reason and what helps; CONFLICT: a pack that is gone
 */
export function needLeave(room: BookRoom, packs: readonly Pack[], purpose: Purpose, initialsForError = false): void {
  for (const batchId of new Set(packs.map((pack) => pack.batchId))) {
    const batch = room.book.shelf('batches').need(batchId);
    const release = needBatchLeave(room, batch, purpose, initialsForError);
    for (const pack of packs.filter((one) => one.batchId === batchId)) {
      const why = whyPackStays(room, pack, release, packTraysOf(room, batchId), purpose);
      if (why !== undefined) throw new Refusal(why.code, `Pack ${pack.code} can’t be ${purpose}: ${why.message}`, { remedy: why.remedy });
    }
  }
}

/** The release a batch leaves on. */
export function needBatchLeave(room: BookRoom, batch: StoredBatch, purpose: Purpose, initialsForError: boolean): Decision {
  const release = needStandingRelease(room, batch);
  const { leave } = judgeBatch(room, batch, { pack: release.pack, store: release.store }).gates;
  if (leave.state === 'may') return release;
  if (leave.state === 'initials') {
    if (initialsForError && actingPerson(room).role === 'manager') return release;
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be ${purpose} yet: it meets only within the thermometer’s error. ${leave.line}`, { remedy: 'A manager looks at the record and gives initials for that.' });
  }
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be ${purpose}. ${reasonsOf(leave)}`.trim(), { remedy: remedyOf(leave) });
}

function reasonsOf(gate: GateLine): string {
  return [gate.line, ...gate.blocking.map(({ checkId, reason }) => `${checkId}: ${reason}`)].join(' ');
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

/** Why one pack of a batch that may leave stays; undefined where it may go. */
export function whyPackStays(room: BookRoom, pack: Pack, { store }: Pick<Decision, 'store'>, trays: readonly Tray[], purpose: Purpose): WhyNot | undefined {
  const last = lastMoveOf(room, pack.id);
  if (isGone(last)) return { code: 'CONFLICT', message: `it was ${whereWords(room, pack, last)}.`, remedy: 'A pack is given once. Look at its number again.' };
  if (last?.what === 'returned') return { code: 'RULE_BLOCKS', message: `it was ${whereWords(room, pack, last)}, and nothing shows how it was kept in between.`, remedy: 'Mark it destroyed.' };
  if (store !== 'frozen' || trays.length === 0) return undefined;
  const tray = trayOfPack(trays, pack.id);
  if (tray === undefined) return { code: 'RULE_BLOCKS', message: 'it lies on none of the batch’s trays, so nothing shows that it was frozen.', remedy: 'Put it on a tray in the freezer, and mark when it is frozen solid.' };
  if (tray.frozenAtMs === null) return { code: 'RULE_BLOCKS', message: `${tray.name} is not marked frozen solid.`, remedy: 'Feel it or read its probe, and mark it at the cold store.' };
  // What is served here was thawed for it; what leaves is frozen.
  if (tray.outAtMs !== null && purpose === 'handed over') {
    return { code: 'RULE_BLOCKS', message: `${tray.name} came out of the freezer at ${sayInstant(room, tray.outAtMs)}.`, remedy: 'Frozen fish leaves frozen. Serve it here, or put it on a tray again and mark when it is solid.' };
  }
  return undefined;
}
