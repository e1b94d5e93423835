/** The brine bench: recipes, the brine card, making a batch, and its soak. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { makeBatch } from './batch-making.ts';
import { viewBatch } from './batch-view.ts';
import { makeCard } from './brine-card.ts';
import { logSoak } from './soak.ts';
import { lotsForOneTub, refuseMoreThanReceived } from './tub-lots.ts';

export const brineBenchServices = {
  'recipe.list': (room: BookRoom): Output<'recipe.list'> => ({ recipes: room.book.shelf('recipes').all() }),
  'brine.card': giveCard,
  'batch.make': (room: BookRoom, input: Parsed<'batch.make'>): Output<'batch.make'> => ({ batch: viewBatch(room, makeBatch(room, input)) }),
  'batch.list': listBatches,
  'batch.get': (room: BookRoom, input: Parsed<'batch.get'>): Output<'batch.get'> => ({ batch: viewBatch(room, room.book.shelf('batches').need(input.batchId)) }),
  'soak.log': (room: BookRoom, input: Parsed<'soak.log'>): Output<'soak.log'> => ({ batch: viewBatch(room, logSoak(room, input)) }),
} satisfies Services<'recipe.list' | 'brine.card' | 'batch.make' | 'batch.list' | 'batch.get' | 'soak.log'>;

function giveCard(room: BookRoom, input: Parsed<'brine.card'>): Output<'brine.card'> {
  const recipe = room.book.shelf('recipes').need(input.recipeId);
  const tub = lotsForOneTub(room, input.lotIds);
  const { grams } = unwrap(massFromText(input.fillets.text, input.fillets.unit, 'fillets'));
  refuseMoreThanReceived(room, tub.lots, grams);
  return { card: makeCard(room, { recipe, tub, filletGrams: grams, yieldPercent: input.yieldPercent }) };
}

/** Every batch of the book, the latest made first. */
function listBatches(room: BookRoom): Output<'batch.list'> {
  return { batches: room.book.shelf('batches').all().toReversed().map((batch) => viewBatch(room, batch)) };
}
