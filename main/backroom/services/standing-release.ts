/** A release that still stands on its record: judged again each time something is done on its strength. */
import type { Decision } from '../../../app/contract/requests/verdict.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { uninitialled } from './rejudging.ts';
import { recallNaming, refuseRecalled } from './recall-ticks.ts';
import { nameOf, refuseUnreleased } from './release.ts';
import { openItemsOf } from './work-items.ts';

/**
 * Lets only a released batch through whose pack gate is still open for the pack and store it was released as.
 * @returns the release that stands
 * @throws Refusal RULE_BLOCKS: not released, on HOLD, rejected, called back, a reading, mark or
 *   result that came later closed the gate or left it to initials that nobody gave
 */
export function needStandingRelease(room: BookRoom, batch: StoredBatch): Decision {
  const release = refuseUnreleased(room, batch);
  refuseRecalled(room, batch, recallNaming(room, batch));
  const [again] = openItemsOf(room, batch.id).filter(({ what }) => what === 'decide-again');
  if (again !== undefined) throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released, and must be decided again. ${again.text}`, { remedy: 'A manager releases, holds or rejects it again at the packing table.' });
  const { gates: { pack: gate }, deciding } = judgeBatch(room, batch, { pack: release.pack, store: release.store });
  const close = gate.state === 'initials' ? uninitialled(room, batch, release, deciding) : [];
  if (close.length > 0) {
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released, and now meets only within the thermometer’s error: ${close.map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ')}`, {
      remedy: 'A manager looks at the record and holds the batch, then releases it again with initials for that.',
    });
  }
  if (gate.state === 'may' || gate.state === 'initials') return release;
  const reasons = gate.blocking.map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ');
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was released, but its record no longer carries that. ${gate.line} ${reasons}`.trim(), {
    remedy: ['Hold the batch and look at its verdict.', ...gate.ways].join(' '),
  });
}
