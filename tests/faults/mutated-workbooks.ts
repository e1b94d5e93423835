/** Workbooks with something broken in them: in the bytes of their zip file, or in the XML of one of its parts. */
import type { LogOptions } from '../../app/probes/log-types.ts';
import { readLogFile } from '../../main/backroom/hands/log-file.ts';
import { workbookOf, workbookParts, zipOf, type SheetRows, type WorkbookOptions } from '../backroom/xlsx-file.ts';
import { MOST_FAULTS, randomFrom, sayThrown, startWork } from './fault.ts';
import { faultsOf, LONGEST_MS, refuseNoSentence, type MutatedFiles } from './mutated-files.ts';
import { mutate } from './mutate.ts';

const OPTIONS: readonly LogOptions[] = [
  { timeZone: 'America/Anchorage' },
  { fileName: 'log.xlsx', timeZone: 'UTC', answers: { sheet: 'Log' } },
  { timeZone: 'America/New_York', answers: { unit: 'F', dateOrder: 'month-first', start: '2026-07-14 05:00', elapsedUnit: 'minutes', sheet: 'Second' } },
];
const STAMPED: SheetRows = [
  [{ xml: '<v>0</v>', type: 's' }, 'Probe 1 (°F)', { xml: '<v>1</v>', type: 's' }],
  ...Array.from({ length: 40 }, (_, row) => [{ serial: String(46_217 + row / 1440) }, { number: (40 + row / 10).toFixed(1) }, row % 9 === 0 ? 'OL' : { xml: `<f>B${row + 2}*2</f><v>${80 + row / 5}</v>` }]),
];
const COUNTED: SheetRows = [['Elapsed', 'Core (°C)'], ...Array.from({ length: 30 }, (_, row) => [{ serial: String(row / 24), style: 3 }, { number: String(4 + row) }])];
const WRITTEN: SheetRows = [['Date', 'Time', 'Value °F'], ...Array.from({ length: 20 }, (_, row) => [{ xml: '<v>2026-07-14T00:00:00</v>', type: 'd' }, { serial: String(row / 96), style: 2 }, { number: String(100 + row) }])];
const WORKBOOKS: readonly (readonly [Readonly<Record<string, SheetRows>>, WorkbookOptions])[] = [
  [{ Log: STAMPED }, { sharedStrings: ['When', 'Chamber (°F)'] }],
  [{ Log: STAMPED, Second: COUNTED, Notes: [['Notes']] }, { sharedStrings: ['When', 'Chamber (°F)'], properties: 'date1904="1"' }],
  [{ Log: WRITTEN }, { tail: '<mergeCells count="1"><mergeCell ref="A2:A3"/></mergeCells>', chartSheet: 'Chart' }],
];

/**
 * Breaks that many workbooks and reads each.
 * @param seed the same seed breaks the same workbooks
 */
export async function readMutatedWorkbooks(count: number, seed: number): Promise<MutatedFiles> {
  const random = randomFrom(seed);
  const whole = WORKBOOKS.map(([sheets, options]) => workbookOf(sheets, options));
  const tally = { files: 0, read: 0, asked: 0, refused: 0, direct: 0, slowestMs: 0, faults: [] as string[] };
  for (; tally.files < count && tally.faults.length < MOST_FAULTS; tally.files += 1) {
    const bytes = random(4) === 0 ? mutate(whole, random) : breakPart(random);
    const options = OPTIONS[random(OPTIONS.length)] ?? {};
    const workMs = startWork();
    try {
      const log = await readLogFile(bytes, options);
      if (!log.ok) refuseNoSentence(log.problem);
      if (!log.ok) tally.refused += 1;
      else if (log.value.questions.length > 0) tally.asked += 1;
      else tally.read += 1;
      if (log.ok) tally.faults.push(...faultsOf(log.value).map((fault) => `workbook ${tally.files}: ${fault}`));
    } catch (thrown) {
      tally.faults.push(`workbook ${tally.files}: ${sayThrown(thrown)}`);
    }
    tally.slowestMs = Math.max(tally.slowestMs, workMs());
  }
  if (tally.slowestMs > LONGEST_MS) tally.faults.push(`a workbook took ${Math.round(tally.slowestMs)} ms`);
  return tally;
}

/** A workbook with one part broken, in a zip file that is whole. */
function breakPart(random: (below: number) => number): Uint8Array {
  const [sheets, options] = WORKBOOKS[random(WORKBOOKS.length)] ?? [{}, {}];
  const parts: Record<string, string | Uint8Array> = workbookParts(sheets, options);
  const names = Object.keys(parts);
  // Half of the time a sheet, which is the largest of them.
  const name = random(2) === 0 ? 'xl/worksheets/sheet1.xml' : (names[random(names.length)] ?? '');
  parts[name] = mutate([Buffer.from(parts[name] ?? '')], random, 'xml');
  return zipOf(parts);
}
