/**
 * Whole sets. What a set must answer, and what its silence means, is our own rule; each set's
 * figures carry their primary sources in `assets/limits`.
 */
import { describe, expect, it } from 'vitest';
import { checkIn, judgeLog, steady, type LogInput, type Places, type Points } from '../support/judged-log.ts';

const COOLING: Points = [[35, 141], [45, 138], [80, 100], [125, 71], [130, 68], [220, 50], [330, 39]];
const held: Points = [...steady(146, 0, 30, 5), ...COOLING];
const three: Places = ['A', 'B', 'C'].map((name) => ({ name, role: 'piece', points: held }));
const chilledStore: Places[number] = { name: 'Cooler', role: 'store', points: steady(37, 400, 2800, 60) };
const salty: Partial<LogInput> = { saltSamples: [{ saltPercent: 3, moisturePercent: 62 }], pack: 'vacuum', store: 'refrigerated' };
const hot = (more: Partial<LogInput>): LogInput => ({ process: 'hot', readings: { unit: 'F', places: [...three, chilledStore] }, ...salty, ...more });

describe('a set that answers everything', () => {
  it('meets under the set of a US seller', () => {
    const answer = judgeLog(hot({ setId: 'us-fda-sale' }));
    expect(answer.checks.filter((check) => check.verdict !== 'does-not-apply').map((check) => [check.checkId, check.verdict])).toEqual([
      ['HOT-145-30', 'meets'], ['HOT-PROBES-3', 'meets'], ['COOL-FDA12', 'meets'], ['WPS-ROP-3.5', 'meets'], ['WPS-ROP-3.0-N', 'not-proven'], ['STORE-40', 'meets'],
    ]);
    expect(answer.verdict).toBe('meets');
  });

  it('takes the lodge default where nothing is named, and judges raw fish and brine too', () => {
    const answer = judgeLog(hot({}));
    const ids = answer.checks.map((check) => check.checkId);
    expect(ids).toEqual(expect.arrayContaining(['RAW-38', 'THAW-38', 'BRINE-START-60', 'BRINE-4H-38', 'HOT-145-30', 'HOT-PROBES-3', 'COOL-AFDO', 'WPS-ROP-3.5', 'NIT-NONE', 'STORE-38']));
    expect(ids).not.toContain('REC-REVIEW-7D');
    expect(ids).not.toContain('BRINE-REUSE');
    expect(answer.verdict).toBe('not-proven');
  });

  it('meets the lodge default when the raw fish and the brine are recorded as well', () => {
    const raw: Points = [[-120, 36], [-60, 37]];
    const places: Places = [
      ...['A', 'B', 'C'].map((name): Places[number] => ({ name, role: 'piece', points: [...raw, ...held.map(([minute, value]): [number, number] => [minute + 5, value])] })),
      { name: 'Tub', role: 'brine', points: [[1, 55]] },
      { name: 'Room', role: 'room', points: steady(37, 0, 400, 60) },
      { name: 'Cooler', role: 'store', points: steady(37, 0, 400, 60) },
    ];
    const answer = judgeLog(hot({ readings: { unit: 'F', places }, marks: { inMinute: 0, outMinute: 400 } }));
    expect(answer.checks.filter((check) => !['meets', 'does-not-apply'].includes(check.verdict)).map((check) => check.checkId)).toEqual(['WPS-ROP-3.0-N']);
    expect(answer.verdict).toBe('meets');
  });
});

describe('a set that is silent', () => {
  it('X1: has no cooling figure for a hot batch, so nothing is proven', () => {
    for (const setId of ['me', 'ny-plant', 'wi', 'eu-uk']) {
      const answer = judgeLog(hot({ setId }));
      expect(checkIn(answer, 'cooling').verdict, setId).toBe('no-figure');
      expect(['no-figure', 'not-proven'], setId).toContain(answer.verdict);
    }
  });
  it('asks Michigan’s “immediately” without a figure', () => {
    expect(judgeLog(hot({ checkIds: ['COOL-MI'] })).verdict).toBe('no-figure');
    expect(checkIn(judgeLog(hot({ setId: 'mi-plant' })), 'COOL-MI').verdict).toBe('no-figure');
  });
  it('gives no figure where its only figure is for another kind of batch', () => {
    expect(checkIn(judgeLog(hot({ setId: 'wi' })), 'store').verdict).toBe('no-figure');
    expect(checkIn(judgeLog(hot({ setId: 'us-fda-sale', pack: 'air' })), 'salt').verdict).toBe('no-figure');
  });
  it('raises no salt question for fish that is not packed or is vacuum packed and frozen', () => {
    const questions = (more: Partial<LogInput>) => judgeLog(hot({ setId: 'us-food-code', ...more })).checks.map((check) => check.checkId);
    expect(questions({})).toContain('salt');
    expect(questions({ pack: 'unpacked' })).not.toContain('salt');
    expect(questions({ store: 'frozen' })).not.toContain('salt');
  });
  it('asks a cold batch no cooling and a hot batch no drying or chamber ceiling', () => {
    const chamber: Places = [{ name: 'Smoker', role: 'chamber', points: steady(75, 0, 600, 5) }];
    const cold = judgeLog({ process: 'cold', readings: { unit: 'F', places: chamber }, setId: 'us-fda-sale', ...salty }).checks.map((check) => check.checkId);
    expect(cold).toContain('COLD-FDA-90');
    expect(cold).not.toContain('cooling');
    const hotIds = judgeLog(hot({})).checks.map((check) => check.checkId);
    expect(hotIds.some((id) => id.startsWith('COLD') || id.startsWith('DRY') || id.startsWith('PARA'))).toBe(false);
  });
});

describe('a group of options', () => {
  it('is carried by its best option and not by one whose condition is unknown', () => {
    const weak = { saltSamples: [{ saltPercent: 2.2, moisturePercent: 65 }] };
    expect(judgeLog(hot({ setId: 'us-fda-sale', ...weak })).verdict).toBe('misses');
    const cured = { saltSamples: [{ saltPercent: 2.2, moisturePercent: 65, nitritePpm: 120 }], species: 'Salmo salar' };
    expect(judgeLog(hot({ setId: 'us-fda-sale', ...cured })).verdict).toBe('meets');
  });
  it('is not proven when a set asks nothing that applies', () => {
    expect(judgeLog({ process: 'cold', readings: { unit: 'F', places: [] }, checkIds: ['HOT-145-30'] })).toMatchObject({ verdict: 'not-proven', checks: [{ verdict: 'does-not-apply' }] });
    expect(judgeLog({ process: 'hot', readings: { unit: 'F', places: [] }, checkIds: [] }).verdict).toBe('not-proven');
  });
});
