/** A release that still stands on its record: judged again each time something is done on its strength. */
import type { Decision } from '../../../app/contract/requests/verdict.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { openItemsOf } from './rejudging.ts';
import { nameOf, refuseUnreleased } from './release.ts';

/**
 * Lets only a released batch through whose pack gate is still open for the pack and store it was released as.
 * @returns the release that stands
 * @throws Refusal RULE_BLOCKS: not released, on HOLD, rejected, or a reading, mark or result that came later closed the gate
 */
export function needStandingRelease(room: BookRoom, batch: StoredBatch): Decision {
  const release = refuseUnreleased(room, batch);
  const [again] = openItemsOf(room, batch.id).filter(({ what }) => what === 'decide-again');
  if (again !== undefined) throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released, and must be decided again. ${again.text}`, { remedy: 'A manager releases, holds or rejects it again at the packing table.' });
  const { gates: { pack: gate } } = judgeBatch(room, batch, { pack: release.pack, store: release.store });
  if (gate.state === 'may' || gate.state === 'initials') return release;
  const reasons = gate.blocking.map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ');
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released, but its record no longer carries that. ${gate.line} ${reasons}`.trim(), {
    remedy: ['Hold the batch and look at its verdict.', ...gate.ways].join(' '),
  });
}
