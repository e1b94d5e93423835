/** The brine bench: the brine card, making a batch, and the batches as they go on. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { makeBatch } from './batch-making.ts';
import { viewBatch } from './batch-view.ts';
import { makeCard } from './brine-card.ts';
import { kitchenOf } from './kitchen.ts';
import { ingredientsOf } from './kitchen-ingredients.ts';
import { refuseForbiddenNitrite, refuseUngroundedNitrite } from './nitrite-rule.ts';
import { lotsForOneTub, refuseMoreThanReceived } from './tub-lots.ts';

export const brineBenchServices = {
  'brine.card': giveCard,
  'batch.make': (room: BookRoom, input: Parsed<'batch.make'>): Output<'batch.make'> => ({ batch: viewBatch(room, makeBatch(room, input)) }),
  'batch.list': listBatches,
  'batch.get': (room: BookRoom, input: Parsed<'batch.get'>): Output<'batch.get'> => ({ batch: viewBatch(room, room.book.shelf('batches').need(input.batchId)) }),
} satisfies Services<'brine.card' | 'batch.make' | 'batch.list' | 'batch.get'>;

function giveCard(room: BookRoom, input: Parsed<'brine.card'>): Output<'brine.card'> {
  const recipe = room.book.shelf('recipes').need(input.recipeId);
  const tub = lotsForOneTub(room, input.lotIds);
  const { grams } = unwrap(massFromText(input.fillets.text, input.fillets.unit, 'fillets'));
  refuseMoreThanReceived(room, tub.lots, grams);
  const ingredients = ingredientsOf(room);
  refuseForbiddenNitrite(room, recipe, tub.species, ingredients);
  refuseUngroundedNitrite(kitchenOf(room.book), recipe, ingredients);
  return { card: makeCard(room, { recipe, tub, filletGrams: grams, choices: input, ingredients }) };
}

/** Every batch of the book, the latest made first. */
function listBatches(room: BookRoom, { withoutLoad }: Parsed<'batch.list'>): Output<'batch.list'> {
  const batches = room.book.shelf('batches').all().filter(({ loadId }) => withoutLoad === undefined || loadId === null);
  return { batches: batches.toReversed().map((batch) => viewBatch(room, batch)) };
}
