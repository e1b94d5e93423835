/**
 * A process of its own that takes over one long log after another, and says of each that it is in the book once the
 * program has answered so. Arguments: the book's file, the number of the first log.
 */
import { writeSync } from 'node:fs';
import { openFaultKitchen, valueOf } from './fault-kitchen.ts';
import { importInput, logBytes, logNameOf, LOG_ROWS } from './store-log.ts';

const [file = '', first = '0'] = process.argv.slice(2);
const kitchen = await openFaultKitchen(file);
writeSync(1, 'ready\n');

for (let number = Number(first); ; number += 1) {
  const { fileId } = valueOf(await kitchen.takeFile(logNameOf(number), logBytes(number)));
  writeSync(1, `taken ${number}\n`);
  // A command that was sent before the end, and sent again after it, has the same id.
  const taken = valueOf(await kitchen.ask('readings.import', importInput(fileId, kitchen.storeIds), `import-${number}`));
  if (taken.kept !== LOG_ROWS * kitchen.storeIds.length || taken.alreadyThere !== 0) throw new Error(`log ${number}: ${JSON.stringify(taken)}`);
  writeSync(1, `done ${number}\n`);
}
