/** Readings: typed, or taken over from a logger's file; and the record of a place. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { enterReadings } from './reading-entry.ts';
import { previewFile, readInboxFile, type ReadFile } from './reading-files.ts';
import { importReadings } from './reading-import.ts';
import { encodeSeries } from './series.ts';

export const readingsServices = {
  'readings.enter': (room: BookRoom, input: Parsed<'readings.enter'>): Output<'readings.enter'> => ({ kept: enterReadings(room, input) }),
  'readings.preview': previewFile,
  'readings.import': {
    prepare: (room: BookRoom, input: Parsed<'readings.import'>): Promise<ReadFile> => readInboxFile(room, input.fileId, input.answers),
    commit: (room: BookRoom, input: Parsed<'readings.import'>, file: ReadFile): Output<'readings.import'> => importReadings(room, input, file),
  },
  'place.get': getPlace,
} satisfies Services<'readings.enter' | 'readings.preview' | 'readings.import' | 'place.get'>;

function getPlace(room: BookRoom, { placeId }: Parsed<'place.get'>): Output<'place.get'> {
  const place = room.book.shelf('places').need(placeId);
  return { pointId: place.id, name: place.name, kind: place.kind, series: encodeSeries(room.book.readings(place.id)) };
}
