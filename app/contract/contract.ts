/** The table of every request: one name, one input, one output, on every front and in `ask`. */
import type { z } from 'zod';
import type { Endpoint } from './endpoint.ts';
import type { RequestName } from './names.ts';
import { alarmRequests } from './requests/alarms.ts';
import { brineArithmeticRequests } from './requests/brine-arithmetic.ts';
import { brineBenchRequests } from './requests/brine-bench.ts';
import { correctiveRequests } from './requests/corrective.ts';
import { coldStoreRequests } from './requests/cold-store.ts';
import { evidenceRequests } from './requests/evidence.ts';
import { feedRequests } from './requests/feeds.ts';
import { fishRequests } from './requests/fish.ts';
import { labelChoiceRequests } from './requests/label-choice.ts';
import { handOverRequests } from './requests/hand-over.ts';
import { labelPreviewRequests } from './requests/label-preview.ts';
import { limitsRequests } from './requests/limits.ts';
import { limitsOfficeRequests } from './requests/limits-office.ts';
import { logJudgeRequests } from './requests/log-judge.ts';
import { logReadRequests } from './requests/log-read.ts';
import { officeRequests } from './requests/office.ts';
import { paperRequests } from './requests/papers.ts';
import { paperSheetRequests } from './requests/paper-sheets.ts';
import { packingRequests } from './requests/packing.ts';
import { pointInstrumentRequests } from './requests/point-instrument.ts';
import { takenOutRequests } from './requests/taken-out.ts';
import { recipeRequests } from './requests/recipes.ts';
import { recordRequests } from './requests/record.ts';
import { recallRequests } from './requests/recall.ts';
import { exportRequests } from './requests/export.ts';
import { traceRequests } from './requests/trace.ts';
import { seriesRequests } from './requests/series.ts';
import { smokehouseRequests } from './requests/smokehouse.ts';
import { tasteRequests } from './requests/taste.ts';
import { tubRequests } from './requests/tub.ts';
import { verdictRequests } from './requests/verdict.ts';

export const contract = {
  ...brineArithmeticRequests,
  ...logJudgeRequests,
  ...logReadRequests,
  ...labelPreviewRequests,
  ...labelChoiceRequests,
  ...officeRequests,
  ...limitsRequests,
  ...limitsOfficeRequests,
  ...paperRequests,
  ...fishRequests,
  ...recipeRequests,
  ...tasteRequests,
  ...brineBenchRequests,
  ...tubRequests,
  ...smokehouseRequests,
  ...seriesRequests,
  ...alarmRequests,
  ...pointInstrumentRequests,
  ...takenOutRequests,
  ...feedRequests,
  ...paperSheetRequests,
  ...correctiveRequests,
  ...evidenceRequests,
  ...verdictRequests,
  ...packingRequests,
  ...coldStoreRequests,
  ...handOverRequests,
  ...recordRequests,
  ...traceRequests,
  ...recallRequests,
  ...exportRequests,
} as const satisfies Record<RequestName, Endpoint>;

export type Contract = typeof contract;
/** What a caller sends. */
export type Input<N extends RequestName> = z.input<Contract[N]['input']>;
/** What a service gets: the parsed value. */
export type Parsed<N extends RequestName> = z.output<Contract[N]['input']>;
/** What a caller receives. */
export type Output<N extends RequestName> = z.output<Contract[N]['output']>;
