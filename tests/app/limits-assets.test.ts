import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bookOfLimits } from '../../app/contract/assets-limits.ts';
import { checkIdsOf, findCheck, sourceOf } from '../../app/limits/limit-set.ts';
import { limitTicks } from '../../app/limits/readings.ts';
import { limitBook } from '../support/judged-log.ts';
import { needCheck, needSet } from '../support/judge-cases.ts';

const PROMISED_SETS = ['us-fda-sale', 'us-food-code', 'ak', 'mi-plant', 'me', 'ny-plant', 'ny-food-service', 'or-retail', 'wi', 'ca-on', 'eu-uk', 'home', 'lodge-default'];
const PROMISED_CHECKS = [
  'HOT-145-30', 'HOT-63-30', 'HOT-160-30-CHUB', 'HOT-160-30-HOME', 'HOT-150-30-HOME', 'HOT-180-30-HIST', 'HOT-PROBES-3', 'HOT-PROBES-1',
  'COLD-90-20', 'COLD-50-24', 'COLD-120-6-SABLE', 'COLD-FDA-90', 'PARA-FREEZE-A', 'PARA-FREEZE-B', 'PARA-FREEZE-C', 'PARA-EU-20-24', 'PARA-EU-35-15', 'PARA-EU-HEAT',
  'WPS-ROP-3.5', 'WPS-ROP-3.0-N', 'WPS-AIR-2.5', 'WPS-AIR-3.0-MI', 'SALT-9-CA', 'NIT-200', 'NIT-TUNA-10', 'NIT-CHUB', 'NIT-NONE', 'NATE-500',
  'RAW-38', 'RAW-40', 'RAW-45-AK', 'THAW-38', 'THAW-45', 'THAW-WATER-70', 'BRINE-START-60', 'BRINE-4H-38', 'BRINE-4H-40', 'DRYSALT-38', 'DRYSALT-40',
  'BRINE-REUSE', 'BRINE-REUSE-AK', 'DRY-COLD-40', 'COOL-FC', 'COOL-AK-FS', 'COOL-AFDO', 'COOL-OR', 'COOL-ON', 'COOL-FDA12', 'COOL-CHUB', 'COOL-MI',
  'STORE-38', 'STORE-40', 'STORE-41', 'STORE-4C-ON', 'STORE-8C-UK', 'FROZEN-0F', 'LIFE-14-MI', 'LIFE-14-CA', 'LIFE-10-UK', 'LIFE-7-FC', 'LIFE-30-FC', 'LIFE-14-FC',
  'ROP-FROZEN-FC', 'ROP-48H-FC', 'ROP-BAN-NY-FS', 'OTR-2000-CA', 'OTR-10000', 'REC-REVIEW-7D', 'REC-KEEP-1Y', 'REC-KEEP-2Y', 'REC-KEEP-90D', 'CAL-1Y',
];

describe('the book of limits', () => {
  it('holds every set and check that outside scripts may name', () => {
    expect(limitBook.sets.map((set) => set.id).toSorted()).toEqual(PROMISED_SETS.toSorted());
    expect(PROMISED_CHECKS.filter((id) => findCheck(limitBook, id) === undefined)).toEqual([]);
  });
  it('knows none of the cooling figures that no text was found for', () => {
    expect(['COOL-FC-OLD', 'COOL-3-12', 'COOL-AK34', 'COOL-5-12'].filter((id) => findCheck(limitBook, id) !== undefined)).toEqual([]);
  });
  it('compares every temperature exactly', () => {
    const figures = limitBook.checks.flatMap((check) => [
      ...('limit' in check ? [check.limit] : []),
      ...(check.kind === 'descent' ? [...(check.from === undefined ? [] : [check.from]), ...check.targets.map((target) => target.limit)] : []),
      ...(check.kind === 'freeze' && check.untilSolid !== undefined ? [check.untilSolid] : []),
    ]);
    expect(figures.length).toBeGreaterThan(50);
    expect(figures.map(limitTicks).every(Number.isInteger)).toBe(true);
  });
  it('compares Ontario’s cooling at 135, 70 and 40 °F, which its text prints too', () => {
    expect(needCheck('COOL-ON')).toMatchObject({ from: { value: '135', unit: 'F' }, targets: [{ limit: { value: '70', unit: 'F' } }, { limit: { value: '40', unit: 'F' } }] });
  });
  it('lets only sets whose every text was seen decide unconfirmed', () => {
    expect(limitBook.sets.filter((set) => set.readInFull).map((set) => set.id).toSorted()).toEqual(['lodge-default', 'mi-plant', 'or-retail', 'us-food-code']);
  });
  it('cites a text with a mark for every check of every set', () => {
    for (const set of limitBook.sets) {
      for (const id of checkIdsOf(set)) expect(sourceOf(needCheck(id), set).publisher, `${set.id} ${id}`).not.toBe('');
    }
    expect(sourceOf(needCheck('HOT-145-30'), needSet('wi')).mark).toBe('second-hand');
    expect(sourceOf(needCheck('HOT-145-30'), needSet('mi-plant')).mark).toBe('read');
    expect(sourceOf(needCheck('COOL-AFDO'), needSet('lodge-default')).mark).toBe('second-hand');
    expect(sourceOf(needCheck('REC-REVIEW-7D'), needSet('lodge-default')).mark).toBe('from memory');
  });
  it('asks one common hold of the lodge default alone', () => {
    expect(limitBook.sets.filter((set) => set.answers.some((answer) => answer.together === true)).map((set) => set.id)).toEqual(['lodge-default']);
  });
});

describe('a broken file', () => {
  const checks: unknown = JSON.parse(readFileSync(new URL('../../assets/limits/checks.json', import.meta.url), 'utf8'));
  const set = { id: 'x', name: 'X', version: '1', effectiveFrom: '2026-01-01', readInFull: true, note: 'n', answers: [{ question: 'raw', checks: ['RAW-38'] }], correctiveActs: ['Destroy it.'] };

  it('is taken when it is whole', () => expect(bookOfLimits(checks, [set]).sets).toHaveLength(1));
  it('is refused when it names no check', () => expect(() => bookOfLimits(checks, [{ ...set, answers: [{ question: 'raw', checks: ['RAW-39'] }] }])).toThrow('RAW-39'));
  it('is refused when an id stands twice', () => expect(() => bookOfLimits(checks, [set, set])).toThrow('twice'));
  it('is refused when an answer is of two kinds', () => expect(() => bookOfLimits(checks, [{ ...set, answers: [{ question: 'raw', checks: ['RAW-38'], noFigure: 'none' }] }])).toThrow('checks, oneOf or noFigure'));
  it('is refused when a text is not there', () => expect(() => bookOfLimits(checks, [{ ...set, answers: [{ question: 'raw', checks: ['RAW-38'], cites: { 'RAW-38': { text: 'nowhere', mark: 'read' } } }] }])).toThrow('nowhere'));
});
