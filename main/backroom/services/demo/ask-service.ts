/** Asks the program's own services for the demonstration kitchen: the input is checked by the contract as from any front. */
import { contract, type Output } from '../../../../app/contract/contract.ts';
import type { DemoStep } from '../../../../app/contract/assets-demo.ts';
import { assertNever } from '../../../../app/measures/outcome.ts';
import type { BookRoom } from '../../room.ts';
import { brineBenchServices } from '../brine-bench.ts';
import { coldStoreServices } from '../cold-store.ts';
import { correctiveServices } from '../corrective.ts';
import { fishServices } from '../fish.ts';
import { ingredientServices } from '../ingredients.ts';
import { officeServices } from '../office.ts';
import { packingServices } from '../packing.ts';
import { paperServices } from '../papers.ts';
import { readingsServices } from '../readings.ts';
import { recipeServices } from '../recipes.ts';
import { smokehouseServices } from '../smokehouse.ts';
import { tasteServices } from '../taste.ts';
import { tubServices } from '../tub.ts';
import { verdictServices } from '../verdict.ts';

type DemoRequest = DemoStep['ask'];
export type DemoAnswer = { readonly [N in DemoRequest]: Output<N> }[DemoRequest];

/** One request with the input as data gives it; throws what the contract or the service refuses. */
export function askService(room: BookRoom, name: DemoRequest, input: unknown): DemoAnswer {
  switch (name) {
    case 'office.addInstrument': return officeServices[name](room, contract[name].input.parse(input));
    case 'office.addSmoker': return officeServices[name](room, contract[name].input.parse(input));
    case 'office.addPlace': return officeServices[name](room, contract[name].input.parse(input));
    case 'fishLot.receive': return fishServices[name](room, contract[name].input.parse(input));
    case 'batch.make': return brineBenchServices[name](room, contract[name].input.parse(input));
    case 'soak.log': return tubServices[name](room, contract[name].input.parse(input));
    case 'load.open': return smokehouseServices[name](room, contract[name].input.parse(input));
    case 'load.mark': return smokehouseServices[name](room, contract[name].input.parse(input));
    case 'readings.enter': return readingsServices[name](room, contract[name].input.parse(input));
    // Nothing is recalled in a book that is only being filled.
    case 'batch.decide': return verdictServices[name].commit(room, contract[name].input.parse(input), null);
    case 'batch.mark': return verdictServices[name](room, contract[name].input.parse(input));
    case 'pack.seal': return packingServices[name](room, contract[name].input.parse(input));
    case 'label.printed': return packingServices[name](room, contract[name].input.parse(input));
    case 'guest.save': return coldStoreServices[name](room, contract[name].input.parse(input));
    case 'tray.make': return coldStoreServices[name](room, contract[name].input.parse(input));
    case 'tray.mark': return coldStoreServices[name](room, contract[name].input.parse(input));
    case 'pack.move': return coldStoreServices[name](room, contract[name].input.parse(input));
    case 'portion.close': return coldStoreServices[name](room, contract[name].input.parse(input));
    case 'handOver.make': return coldStoreServices[name](room, contract[name].input.parse(input));
    case 'paper.add': return paperServices[name](room, contract[name].input.parse(input));
    case 'record.review': return correctiveServices[name](room, contract[name].input.parse(input));
    case 'ingredient.save': return ingredientServices[name](room, contract[name].input.parse(input));
    case 'recipe.save': return recipeServices[name](room, contract[name].input.parse(input));
    case 'taste.start': return tasteServices[name](room, contract[name].input.parse(input));
    case 'taste.add': return tasteServices[name](room, contract[name].input.parse(input));
    case 'taste.float': return tasteServices[name](room, contract[name].input.parse(input));
    default: return assertNever(name);
  }
}
