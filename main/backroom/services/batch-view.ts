/** A batch as it crosses the contract: the stored batch with its names and how far it has come. */
import type { Batch, Stage } from '../../../app/contract/requests/brine-bench.ts';
import type { StoredBatch, StoredFishLot } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { standingDecision } from './release.ts';
import { soakLimitsOf } from './soak-limits.ts';
import { speciesOf } from './species.ts';
import { loadOfBatch } from './taken-out.ts';

/** The only place where the wire's batch is composed. */
export function viewBatch(room: BookRoom, batch: StoredBatch): Batch {
  const { recipe: _recipe, ownIngredients: _ownIngredients, scheduledId: _scheduledId, weights: _weights, asksReuse: _asksReuse, ingredientLotIds: _ingredientLotIds, ...kept } = batch;
  const species = speciesOf(room, batch.speciesId);
  const lots = lotsOf(room, batch);
  return {
    ...kept,
    lotCodes: lots.map((lot) => lot.code),
    marketName: species.marketName,
    scientificName: species.scientificName,
    ownerName: ownerOf(lots),
    stage: stageOf(room, batch),
    soakLimits: soakLimitsOf(room, batch),
  };
}

/** The fish lots that went into a batch. */
export function lotsOf(room: BookRoom, batch: StoredBatch): StoredFishLot[] {
  return batch.lotIds.map((lotId) => room.book.shelf('fishLots').need(lotId));
}

/** The guest whose catch it is; null for bought fish. */
function ownerOf(lots: readonly StoredFishLot[]): string | null {
  const source = lots[0]?.source;
  return source?.kind === 'guest' ? source.ownerName : null;
}

/** How far a batch has come; a decision that stands says more than any mark. */
export function stageOf(room: BookRoom, batch: StoredBatch): Stage {
  switch (standingDecision(room, batch.id)?.decision) {
    case 'release': return 'released';
    case 'hold': return 'on-hold';
    case 'reject': return 'rejected';
    case undefined: return workStage(room, batch);
  }
}

function workStage(room: BookRoom, batch: StoredBatch): Stage {
  const load = loadOfBatch(room, batch);
  if (load !== undefined && load.inAtMs !== null) {
    if (load.outAtMs === null) return 'smoking';
    // Nothing is asked of the cooling of cold-smoked fish.
    return load.cooledAtMs === null && load.process === 'hot' ? 'cooling' : 'cooled';
  }
  if (batch.soak.some((event) => event.what === 'end')) return 'drying';
  return batch.soak.length > 0 ? 'soaking' : 'ready';
}
