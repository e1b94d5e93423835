/** The weights of one batch side by side: what went in, what was packed, and the rest that somebody entered. */
import { yieldAmong } from '../../../app/packs/recall-yield.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { sayMass } from './packs-of-batch.ts';
import { nameOf } from './release.ts';

/** “WF26329A9: 9.00 lb of fillets in, 6.10 lb in 12 packs (67.8 % of the fillets), 0.20 lb left over, 0.10 lb trim.” With a remark where the yield is far from the kitchen’s own. */
export function batchWeightLine(room: BookRoom, batch: StoredBatch): string {
  const packs = room.book.shelf('packs').where('batchId', batch.id);
  const packed = packs.reduce((sum, pack) => sum + pack.net.grams, 0);
  const cut = room.book.shelf('portionings').where('batchId', batch.id);
  // What was left over each time was packed the next time, but for the last.
  const remainder = cut.at(-1)?.remainderGrams ?? 0;
  const trim = cut.reduce((sum, one) => sum + one.trimGrams, 0);
  const finished = batch.weights.filter(({ what }) => what === 'finished').at(-1);
  const parts = [
    `${sayMass(room, batch.fillets.grams)} of fillets in`,
    finished === undefined ? '' : `${sayMass(room, finished.mass.grams)} finished`,
    packs.length === 0 ? 'nothing packed' : `${sayMass(room, packed)} in ${packs.length} ${packs.length === 1 ? 'pack' : 'packs'} (${((100 * packed) / batch.fillets.grams).toFixed(1)} % of the fillets)`,
    remainder === 0 ? '' : `${sayMass(room, remainder)} left over`,
    trim === 0 ? '' : `${sayMass(room, trim)} trim`,
  ];
  return `${nameOf(batch)}: ${parts.filter((part) => part !== '').join(', ')}.${packs.length === 0 ? '' : remarkOn(room, batch, packed)}`;
}

function remarkOn(room: BookRoom, batch: StoredBatch, packedGrams: number): string {
  const others = room.book.shelf('batches').all()
    .filter((other) => other.id !== batch.id && other.speciesId === batch.speciesId && other.process === batch.process && other.sealedAtMs !== null)
    .slice(-MOST_OTHERS)
    .map((other) => room.book.shelf('packs').where('batchId', other.id).reduce((sum, pack) => sum + pack.net.grams, 0) / other.fillets.grams);
  const found = yieldAmong(packedGrams / batch.fillets.grams, others);
  if (found.state === 'usual') return '';
  const among = `${(100 * found.mean).toFixed(1)} % on average in ${others.length} other batches`;
  return found.state === 'unusual' ? ` That is unusual: ${among}. Look for packs or trim that nobody entered.` : ` Too few other batches (${others.length}) to say whether that is usual.`;
}

const MOST_OTHERS = 50;
