/** The packing table: label stocks, packs and their labels. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Pack, StoredLabel } from '../../../app/contract/requests/packing.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { labelOfPack } from './label-content.ts';
import { stocksOf } from './label-stocks.ts';
import { sealPacks } from './pack-sealing.ts';
import { lastMoveOf } from './pack-where-last.ts';
import { packsOf } from './packs-of-batch.ts';
import { needStandingRelease } from './standing-release.ts';

export const packingServices = {
  'stock.list': (room: BookRoom): Output<'stock.list'> => ({
    stocks: stocksOf(room),
  }),
  'pack.seal': (room: BookRoom, input: Parsed<'pack.seal'>): Output<'pack.seal'> => ({ packs: sealPacks(room, input) }),
  'pack.list': (room: BookRoom, { batchId }: Parsed<'pack.list'>): Output<'pack.list'> => {
    room.book.shelf('batches').need(batchId);
    return { packs: packsOf(room, batchId) };
  },
  'label.forPacks': (room: BookRoom, input: Parsed<'label.forPacks'>): Output<'label.forPacks'> => ({
    labels: packsToLabel(room, input.packIds).map((pack) => labelOfPack(room, pack, input.stockId)),
  }),
  'label.printed': keepPrinted,
} satisfies Services<'stock.list' | 'pack.seal' | 'pack.list' | 'label.forPacks' | 'label.printed'>;

function keepPrinted(room: BookRoom, input: Parsed<'label.printed'>): Output<'label.printed'> {
  const packs = packsToLabel(room, input.packIds);
  const labels = packs.map((pack) => labelOfPack(room, pack, input.stockId));
  for (const label of labels) refuseIncomplete(label);
  refuseUsedUp(room, packs);
  refuseOtherwiseDrawn(labels, input.digests);
  const why = input.why ?? '';
  refuseUnexplained(packs, why);
  const nowMs = room.clock.nowMs();
  for (const [index, pack] of packs.entries()) {
    const label = labels[index];
    if (label === undefined) continue;
    room.book.shelf('prints').put({ id: room.newId(), packId: pack.id, printedAtMs: nowMs, printedBy: actingPerson(room).initials, label, why: pack.printedCount === 0 ? '' : why });
    room.book.shelf('packs').put({ ...pack, printedCount: pack.printedCount + 1 });
    room.book.record({
      kind: 'label.printed', subjectId: pack.batchId, happenedAtMs: nowMs,
      summary: `${pack.printedCount === 0 ? 'Printed' : 'Reprinted'} the label of pack ${pack.code} on ${label.stock.name}${pack.printedCount === 0 ? '' : `, time ${pack.printedCount + 1}`}.`,
      ...(pack.printedCount === 0 ? {} : { why }),
      after: { packId: pack.id, digest: label.digest, stockId: label.stock.id, printedCount: pack.printedCount + 1 },
    });
  }
  room.changed('packs', input.packIds);
  room.changed('verdict', [...new Set(packs.map((pack) => pack.batchId))]);
  return { labels };
}

/** A label of a pack that is no more could only end on other fish. */
function refuseUsedUp(room: BookRoom, packs: readonly Pack[]): void {
  for (const pack of packs) {
    const what = lastMoveOf(room, pack.id)?.what;
    if (what !== 'served' && what !== 'destroyed') continue;
    throw new Refusal('RULE_BLOCKS', `Pack ${pack.code} was ${what}: there is nothing left to label.`, { remedy: 'Choose the packs that are still there. If it was noted by mistake, correct that in the cold store first.' });
  }
}

/** What is kept must be what was drawn, and seen to fit: the book may have changed since. */
function refuseOtherwiseDrawn(labels: readonly StoredLabel[], digests: readonly string[] | undefined): void {
  const changed = digests === undefined ? undefined : labels.find(({ digest }, index) => digest !== digests[index]);
  if (changed === undefined) return;
  throw new Refusal('CONFLICT', `The label of pack ${changed.packCode} has changed since it was drawn.`, { remedy: 'Look at it again, then print.' });
}

/** A second label of a pack may end on another pack: why there is one is kept. */
function refuseUnexplained(packs: readonly Pack[], why: string): void {
  const again = packs.find((pack) => pack.printedCount > 0);
  if (again === undefined || why !== '') return;
  refuseInput(`The label of pack ${again.code} was printed before.`, ['why'], 'Say why it is printed again: torn, lost, or what was corrected.');
}

function refuseIncomplete(label: StoredLabel): void {
  const [first, ...others] = label.missing;
  if (first === undefined) return;
  throw new Refusal('RULE_BLOCKS', `The label of pack ${label.packCode} is not complete: ${first.why}`, {
    remedy: ['Enter what is missing, then print.', ...others.map((gap) => gap.why)].join(' '),
  });
}

/** Packs whose batches still stand released: each batch is judged again, once. */
function packsToLabel(room: BookRoom, packIds: readonly string[]): Pack[] {
  const packs = needPacks(room, packIds);
  for (const batchId of new Set(packs.map((pack) => pack.batchId))) needStandingRelease(room, room.book.shelf('batches').need(batchId));
  return packs;
}

function needPacks(room: BookRoom, packIds: readonly string[]): Pack[] {
  if (new Set(packIds).size !== packIds.length) throw new Refusal('INVALID_INPUT', 'A pack is named twice.', { remedy: 'Name each pack once.' });
  return packIds.map((id) => room.book.shelf('packs').need(id));
}
