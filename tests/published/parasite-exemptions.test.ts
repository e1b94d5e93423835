/**
 * Who is exempt from freezing. US FDA Food Code 3-402.11 as enacted in Washington and Minnesota (six
 * tunas; fish farmed in net-pens, ponds or tanks on pellets, by the supplier's written statement;
 * read); State of New York, 1 NYCRR 271-2.14 (the tunas; read). Wild freshwater fish is not exempt.
 * The statements are invented (computed).
 */
import { describe, expect, it } from 'vitest';
import type { CaseFacts, JudgeCase } from '../../app/limits/judge-case.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { FiledRecord } from '../../app/limits/on-file.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, needSet, readingsF } from '../support/judge-cases.ts';
import { checkIn, judgeLog, limitBook, steady, type Points } from '../support/judged-log.ts';

const SALMON = 'Salmo salar';
const LAKE_TROUT = 'Salvelinus namaycush';
const statement = (what: FiledRecord['what'], more: Partial<FiledRecord> = {}): FiledRecord => ({ what, number: 'S-4', holder: 'Cold Bay Farms', onFileMs: -1000, species: [SALMON], ...more });

function parasite(setId: string, species: string | undefined, facts: CaseFacts, freezer: Points = []) {
  const points = freezer.length === 0 ? [] : [{ name: 'Freezer', role: 'store' as const, record: 'freezer' as const, readings: readingsF(freezer) }];
  const batch = batchOf(points, { process: 'cold', species, facts });
  const judged: JudgeCase = { ...batch, records: { ...batch.records, process: { inMs: 0, outMs: 600_000, open: false } } };
  const unit = judgeSet(needSet(setId), judged, limitBook, { words: minuteWords('F'), paper: true }).units.find((one) => one.question === 'parasite');
  return { verdict: unit?.verdict, by: unit?.deciding.checkId, reason: unit?.deciding.reason };
}

describe('tuna', () => {
  it('of the six species needs no freezing under the Food Code and in New York', () => {
    for (const setId of ['us-food-code', 'ny-plant']) {
      expect(parasite(setId, 'Thunnus albacares', { onFile: [] })).toMatchObject({ verdict: 'meets', by: 'PARA-EXEMPT-TUNA' });
      expect(judgeLog({ process: 'cold', species: 'Thunnus albacares', readings: { unit: 'F', places: [] }, setId }).checks.find((check) => check.checkId === 'PARA-EXEMPT-TUNA')?.verdict, setId).toBe('meets');
    }
  });
  it('of another species, or under a set that does not name the exemption, is frozen', () => {
    expect(parasite('us-food-code', 'Katsuwonus pelamis', { onFile: [] }).verdict).toBe('not-proven');
    expect(parasite('lodge-default', 'Thunnus albacares', { onFile: [] }).by).toBe('PARA-FREEZE-A');
  });
  it('is not assumed where the species is not known', () => {
    expect(parasite('us-food-code', undefined, { onFile: [] }).verdict).toBe('not-proven');
    expect(checkIn(judgeLog({ process: 'cold', readings: { unit: 'F', places: [] }, setId: 'us-food-code' }), 'PARA-EXEMPT-TUNA').verdict).toBe('not-proven');
  });
});

describe('farmed fish', () => {
  it('is exempt by its supplier’s written statement that names the species', () => {
    expect(parasite('us-food-code', SALMON, { onFile: [statement('fed-pellets')] })).toMatchObject({ verdict: 'meets', by: 'PARA-EXEMPT-FARMED' });
    expect(parasite('us-food-code', SALMON, { onFile: [statement('fed-pellets', { validUntilMs: 100 })] }).verdict).toBe('not-proven');
    expect(parasite('us-food-code', LAKE_TROUT, { onFile: [statement('fed-pellets')] }).verdict).toBe('not-proven');
    expect(parasite('ny-plant', SALMON, { onFile: [statement('fed-pellets')] }).verdict).toBe('not-proven');
  });
  it('without a statement takes no part: a freezing that misses stays a miss', () => {
    const warm = steady(0, 0, 720 * 60, 60);
    expect(parasite('us-food-code', SALMON, { onFile: [] }, warm).verdict).toBe('misses');
    expect(parasite('us-food-code', SALMON, {}, warm).verdict).toBe('misses');
    expect(parasite('us-food-code', SALMON, { onFile: [statement('fed-pellets')] }, warm).verdict).toBe('meets');
  });
});

describe('fish frozen by its supplier', () => {
  const frozen = (value: string, unit: 'F' | 'C', hours: string) => parasite('us-food-code', SALMON, { onFile: [statement('frozen-by-supplier', { frozen: { value, unit, hours } })] }).verdict;
  it('is shown by a statement of species, temperature and time that reach an option', () => {
    expect([frozen('-4', 'F', '168'), frozen('-20', 'C', '168'), frozen('-31', 'F', '15'), frozen('-35', 'C', '15')]).toEqual(Array(4).fill('meets'));
    expect([frozen('-4', 'F', '167.9'), frozen('-19.9', 'C', '168'), frozen('0', 'F', '720'), frozen('-30', 'F', '15')]).toEqual(Array(4).fill('not-proven'));
  });
  it('is not shown by a statement without them', () => expect(parasite('us-food-code', SALMON, { onFile: [statement('frozen-by-supplier')] }).verdict).toBe('not-proven'));
});

it('wild lake trout is frozen, whatever is on file of other fish', () => {
  const cold = steady(-4, 0, 168 * 60, 60);
  expect(parasite('us-food-code', LAKE_TROUT, { onFile: [statement('fed-pellets')] }, cold)).toMatchObject({ verdict: 'meets', by: 'PARA-FREEZE-A' });
});
