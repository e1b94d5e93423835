/** Labels as they were printed, kept word for word. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Stored } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { packsOf } from './packs-of-batch.ts';

export const labelPrintServices = {
  'label.prints': listPrints,
  'label.kept': (room: BookRoom, { printId }: Parsed<'label.kept'>): Output<'label.kept'> => {
    const print = room.book.shelf('prints').need(printId);
    return { print: keptPrint(print), label: print.label };
  },
} satisfies Services<'label.prints' | 'label.kept'>;

function listPrints(room: BookRoom, { batchId }: Parsed<'label.prints'>): Output<'label.prints'> {
  room.book.shelf('batches').need(batchId);
  const prints = packsOf(room, batchId).flatMap((pack) => room.book.shelf('prints').where('packId', pack.id));
  const newestFirst = prints.toSorted((one, other) => other.printedAtMs - one.printedAtMs || one.label.packCode.localeCompare(other.label.packCode));
  return { prints: newestFirst.map(keptPrint) };
}

function keptPrint({ id, packId, printedAtMs, printedBy, why, label }: Stored<'prints'>): Output<'label.kept'>['print'] {
  return { id, packId, packCode: label.packCode, printedAtMs, printedBy, why, stockName: label.stock.name, digest: label.digest };
}
