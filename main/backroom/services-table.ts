/** Every use case, one a request: a missing one does not compile. */
import { Refusal } from './refusal.ts';
import type { Services } from './service.ts';
import { alarmServices } from './services/alarms.ts';
import { bookLifeServices } from './services/book-life.ts';
import { brineArithmeticServices } from './services/brine-arithmetic.ts';
import { coldStoreServices } from './services/cold-store.ts';
import { brineBenchServices } from './services/brine-bench.ts';
import { correctiveServices } from './services/corrective.ts';
import { correctionServices } from './services/corrections.ts';
import { doubtServices } from './services/doubts.ts';
import { feedServices } from './services/feeds.ts';
import { fishServices } from './services/fish.ts';
import { ingredientServices } from './services/ingredients.ts';
import { instrumentServices } from './services/instruments.ts';
import { labelChoiceServices } from './services/label-choice.ts';
import { labelPrintServices } from './services/label-prints.ts';
import { labelPreviewServices } from './services/label-preview.ts';
import { limitsServices } from './services/limits.ts';
import { limitsOfficeServices } from './services/own-sets.ts';
import { lineServices } from './services/line.ts';
import { logReadServices } from './services/log-read.ts';
import { officeServices } from './services/office.ts';
import { paperServices } from './services/papers.ts';
import { paperSheetServices } from './services/paper-sheets.ts';
import { packingServices } from './services/packing.ts';
import { pointInstrumentServices } from './services/point-instrument.ts';
import { takingOutServices } from './services/taking-out.ts';
import { readingsServices } from './services/readings.ts';
import { recipeServices } from './services/recipes.ts';
import { recordServices } from './services/record.ts';
import { complaintServices } from './services/complaints.ts';
import { exportServices } from './services/export.ts';
import { ingredientLotServices } from './services/ingredient-lots.ts';
import { recallServices } from './services/recall.ts';
import { traceServices } from './services/trace.ts';
import { seriesServices } from './services/series-window.ts';
import { smokehouseServices } from './services/smokehouse.ts';
import { tasteServices } from './services/taste.ts';
import { tubServices } from './services/tub.ts';
import { verdictServices } from './services/verdict.ts';
import { worklistServices } from './services/worklist.ts';

export const services: Services = {
  ...bookLifeServices,
  ...officeServices,
  ...limitsServices,
  ...limitsOfficeServices,
  ...paperServices,
  ...fishServices,
  ...recipeServices,
  ...ingredientServices,
  ...tasteServices,
  ...brineBenchServices,
  ...tubServices,
  ...smokehouseServices,
  ...seriesServices,
  ...alarmServices,
  ...pointInstrumentServices,
  ...feedServices,
  ...takingOutServices,
  ...paperSheetServices,
  ...readingsServices,
  ...correctiveServices,
  ...instrumentServices,
  ...doubtServices,
  ...correctionServices,
  ...worklistServices,
  ...verdictServices,
  ...packingServices,
  ...coldStoreServices,
  ...labelChoiceServices,
  ...labelPrintServices,
  ...lineServices,
  ...recordServices,
  ...traceServices,
  ...complaintServices,
  ...ingredientLotServices,
  ...recallServices,
  ...exportServices,
  ...logReadServices,
  ...labelPreviewServices,
  // These need nothing of the room but its data.
  'brine.strength': ({ catalogue }, input) => brineArithmeticServices['brine.strength'](catalogue, input),
  'recipe.scale': ({ catalogue }, input) => brineArithmeticServices['recipe.scale'](catalogue, input),
  // A long record takes a while, and a live load may not wait for it.
  'log.judge': async ({ hands }, input) => {
    const judged = await hands.run('judgeLog', input);
    if (judged.ok) return judged.value;
    const { code, message, remedy, fields } = judged.failure;
    throw new Refusal(code, message, { remedy, fields });
  },
};
