/** A batch in its brine: mending the brine, the forecast of its salt, samples of it, and the log of its soak. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { viewBatch } from './batch-view.ts';
import { forecastSoak } from './forecast.ts';
import { noteLotsInUse } from './ingredient-lots.ts';
import { planMend, recordMend } from './mend.ts';
import { keepSample, samplesOf } from './soak-sample.ts';
import { logSoak } from './soak.ts';

export const tubServices = {
  'brine.mend': (room: BookRoom, input: Parsed<'brine.mend'>): Output<'brine.mend'> => ({ plan: planMend(room, input) }),
  'brine.mended': (room: BookRoom, input: Parsed<'brine.mended'>): Output<'brine.mended'> => {
    const { batch, mend } = recordMend(room, input);
    noteLotsInUse(room, batch, mend.atMs, mend.steps.flatMap((step) => step.ingredientId ?? []));
    return { batch: viewBatch(room, batch), mend };
  },
  'soak.forecast': (room: BookRoom, input: Parsed<'soak.forecast'>): Output<'soak.forecast'> => {
    const batch = room.book.shelf('batches').need(input.batchId);
    return { forecast: forecastSoak(room, batch), samples: samplesOf(room, batch.id) };
  },
  'soak.sample': (room: BookRoom, input: Parsed<'soak.sample'>): Output<'soak.sample'> => ({ samples: keepSample(room, input) }),
  'soak.log': (room: BookRoom, input: Parsed<'soak.log'>): Output<'soak.log'> => {
    const batch = logSoak(room, input);
    if (input.what === 'start') noteLotsInUse(room, batch, input.atMs, batch.card.lines.map((line) => line.ingredientId));
    return { batch: viewBatch(room, batch) };
  },
} satisfies Services<'brine.mend' | 'brine.mended' | 'soak.forecast' | 'soak.sample' | 'soak.log'>;
