/** Readings: typed, or taken over from a logger's file; and the record of a place. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { enterReadings } from './reading-entry.ts';
import { greatestOf, instantsOf, leastOf, readInboxFile, type ReadFile } from './reading-files.ts';
import { importReadings } from './reading-import.ts';
import { previewFile } from './reading-preview.ts';
import { rejudge } from './rejudging.ts';
import { reachedByPoints } from './rejudging-reach.ts';
import { encodeSeries } from './series.ts';

export const readingsServices = {
  'readings.enter': (room: BookRoom, input: Parsed<'readings.enter'>): Output<'readings.enter'> => {
    const kept = enterReadings(room, input);
    rejudgeAfter(room, input.readings.map(({ pointId }) => pointId), input.readings.map(({ atMs }) => atMs));
    return kept;
  },
  'readings.preview': previewFile,
  'readings.import': {
    prepare: (room: BookRoom, input: Parsed<'readings.import'>): Promise<ReadFile> => readInboxFile(room, input),
    commit(room: BookRoom, input: Parsed<'readings.import'>, file: ReadFile): Output<'readings.import'> {
      const taken = importReadings(room, input, file);
      rejudgeAfter(room, input.columns.map(({ pointId }) => pointId), file.log.places.flatMap(instantsOf));
      return taken;
    },
  },
  'place.get': getPlace,
} satisfies Services<'readings.enter' | 'readings.preview' | 'readings.import' | 'place.get'>;

function getPlace(room: BookRoom, { placeId }: Parsed<'place.get'>): Output<'place.get'> {
  const place = room.book.shelf('places').need(placeId);
  return { pointId: place.id, name: place.name, kind: place.kind, series: encodeSeries(room.book.readings(place.id)) };
}

/** Readings that came late may change what a released batch was released on. */
function rejudgeAfter(room: BookRoom, pointIds: readonly string[], instants: readonly number[]): void {
  const [fromMs, toMs] = [leastOf(instants), greatestOf(instants)];
  if (fromMs === null || toMs === null) return;
  const points = [...new Set(pointIds)].map((id) => room.book.shelf('points').need(id));
  rejudge(room, reachedByPoints(room, points, { fromMs, toMs }), `readings of ${points.map(({ name }) => name).join(', ')} were entered`);
}
