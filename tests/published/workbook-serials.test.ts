/**
 * Days of spreadsheets as moments. ECMA-376 Part 1, 18.17.4.1 and 18.17.4.3, date conversion for serial values
 * (second-hand: the standard's text as restated on two sites, and its examples in the tests of several open libraries).
 * ECMA-376, 1st edition (2006), Part 4, 3.17.4.1: the day of 29 February 1900 is counted, though it never was (second-hand).
 */
import { describe, expect, it } from 'vitest';
import { readLogFile } from '../../main/backroom/hands/log-file.ts';
import { workbookOf } from '../backroom/xlsx-file.ts';

const DAY_MS = 86_400_000;

async function momentsOf(serials: readonly string[], properties: string): Promise<string[]> {
  const rows = serials.map((serial) => [{ serial }, { number: '62.8' }]);
  const read = await readLogFile(workbookOf({ Log: [['When', 'Probe (°F)'], ...rows] }, { properties }), { timeZone: 'UTC' });
  if (!read.ok) throw new Error(read.problem.message);
  return Array.from(read.value.places[0]?.columns.atMs ?? [], (at) => new Date(at).toISOString());
}

describe('The serial values of ECMA-376', () => {
  it('are the moments it gives in the 1900 date system', async () => {
    expect(await momentsOf(['3687.0000000', '3687.4207639', '38749.0000000'], '')).toEqual(['1910-02-03T00:00:00.000Z', '1910-02-03T10:05:54.000Z', '2006-02-01T00:00:00.000Z']);
  });

  it('are the moments it gives in the 1904 date system', async () => {
    expect(await momentsOf(['2225.0000000', '2225.4207639', '37287.0000000'], 'date1904="1"')).toEqual(['1910-02-03T00:00:00.000Z', '1910-02-03T10:05:54.000Z', '2006-02-01T00:00:00.000Z']);
  });

  it('count a day that never was: 3 February 1910 is the 3686th day after the last of 1899, and its number one more', () => {
    expect((Date.UTC(1910, 1, 3) - Date.UTC(1899, 11, 31)) / DAY_MS + 1).toBe(3687);
  });
});
