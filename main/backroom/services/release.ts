/** Whether a batch may be packed: what was last decided about it, and by whom. */
import type { Decision } from '../../../app/contract/requests/verdict.ts';
import type { Stored, StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';

/** Every decision about a batch, oldest first. */
export function decisionsOf(room: BookRoom, batchId: string): Decision[] {
  return room.book.shelf('decisions').where('batchId', batchId).map(withoutBatch);
}

/** The decision that stands: the last one. */
export function standingDecision(room: BookRoom, batchId: string): Decision | undefined {
  return decisionsOf(room, batchId).at(-1);
}

/**
 * Lets only a released batch through.
 * @returns the release that stands
 * @throws Refusal RULE_BLOCKS for a batch on HOLD, rejected or not decided yet
 */
export function refuseUnreleased(room: BookRoom, batch: StoredBatch): Decision {
  const standing = standingDecision(room, batch.id);
  if (standing?.decision === 'release') return standing;
  if (standing === undefined) {
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} has not been released.`, { remedy: 'A manager releases it first, on its verdict.' });
  }
  if (standing.decision === 'hold') {
    const where = standing.keptWhere === '' ? 'in its marked place' : `in ${standing.keptWhere}`;
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} is on HOLD (${standing.initials}: ${standing.reason}).`, {
      remedy: `Keep it at 38 °F or below ${where}; do not pack, serve, label, hand over or mix it until a manager releases it.`,
    });
  }
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was rejected (${standing.initials}: ${standing.reason}).`, {
    remedy: 'A rejected batch is not packed, labelled or handed over.',
  });
}

/** What a batch is called on screen: its lot code once it has one. */
export function nameOf(batch: StoredBatch): string {
  return batch.lotCode ?? batch.shortName;
}

function withoutBatch({ batchId: _batchId, ...decision }: Stored<'decisions'>): Decision {
  return decision;
}
