/**
 * Salt and nitrite. Water-phase salt = salt × 100 ÷ (salt + moisture): Code of Maine Rules 01-001
 * chapter 359 § 1 (read); 3.5 % and 3.0 % with 100 to 200 ppm nitrite: § 2 (read); 3.0 % in air
 * packs: Michigan Administrative Code R 285.569.8 (read); nitrite by species: 21 CFR 172.175 (read).
 * The samples and their verdicts are worked examples of our own (computed).
 */
import { describe, expect, it } from 'vitest';
import { checkIn, judgeLog, type LogInput } from '../support/judged-log.ts';

const SALMON = 'Salmo salar';
const LAKE_TROUT = 'Salvelinus namaycush';
const sample = (saltPercent: number, moisturePercent: number, nitritePpm?: number) => [nitritePpm === undefined ? { saltPercent, moisturePercent } : { saltPercent, moisturePercent, nitritePpm }];
const chilled = (more: Partial<LogInput>): LogInput => ({ process: 'hot', readings: { unit: 'F', places: [] }, pack: 'vacuum', store: 'refrigerated', ...more });
const verdictOf = (checkId: string, more: Partial<LogInput>) => judgeLog(chilled({ checkIds: [checkId], ...more })).verdict;

describe('water-phase salt', () => {
  it('W1: 3.0 % salt and 62 % moisture are 4.615 %, over 3.5 %', () => {
    const found = checkIn(judgeLog(chilled({ checkIds: ['WPS-ROP-3.5'], saltSamples: sample(3, 62) })), 'WPS-ROP-3.5');
    expect(found.verdict).toBe('meets');
    expect(found.reason).toContain('4.615');
  });
  it('W2: 3.274 % misses 3.5 % without nitrite', () => expect(verdictOf('WPS-ROP-3.5', { saltSamples: sample(2.2, 65) })).toBe('misses'));
  it('W3: 3.274 % with 120 ppm nitrite in salmon meets 3.0 %', () => {
    expect(verdictOf('WPS-ROP-3.0-N', { saltSamples: sample(2.2, 65, 120), species: SALMON })).toBe('meets');
    expect(verdictOf('NIT-200', { saltSamples: sample(2.2, 65, 120), species: SALMON })).toBe('meets');
  });
  it('W4: the same in lake trout misses', () => {
    const answer = judgeLog(chilled({ saltSamples: sample(2.2, 65, 120), species: LAKE_TROUT }));
    expect(answer.verdict).toBe('misses');
    expect(checkIn(answer, 'WPS-ROP-3.0-N').verdict).toBe('does-not-apply');
    expect(checkIn(answer, 'WPS-ROP-3.5').verdict).toBe('misses');
    expect(checkIn(answer, 'NIT-NONE').verdict).toBe('misses');
  });
  it('W5: 90 ppm earns no relaxation', () => {
    expect(verdictOf('WPS-ROP-3.0-N', { saltSamples: sample(2.2, 65, 90), species: SALMON })).toBe('misses');
    expect(judgeLog(chilled({ saltSamples: sample(2.2, 65, 90), species: SALMON })).verdict).toBe('misses');
  });
  it('W6: 3.489 % is not rounded up to 3.5 %', () => expect(verdictOf('WPS-ROP-3.5', { saltSamples: sample(2.35, 65) })).toBe('misses'));
  it('W7: 2.511 % in an air pack meets 2.5 % and misses Michigan’s 3.0 %', () => {
    expect(verdictOf('WPS-AIR-2.5', { saltSamples: sample(1.7, 66), pack: 'air' })).toBe('meets');
    expect(verdictOf('WPS-AIR-3.0-MI', { saltSamples: sample(1.7, 66), pack: 'air' })).toBe('misses');
  });
  it('W12: exactly 3.5 % meets where floating point would miss, and 3.4996 % misses', () => {
    expect(verdictOf('WPS-ROP-3.5', { saltSamples: sample(2.03, 55.97) })).toBe('meets');
    expect(verdictOf('WPS-ROP-3.5', { saltSamples: sample(2.8, 77.2) })).toBe('meets');
    expect(verdictOf('WPS-ROP-3.5', { saltSamples: sample(2, 55.15) })).toBe('misses');
  });
  it('needs every sample to meet, and proves nothing without one', () => {
    expect(verdictOf('WPS-ROP-3.5', { saltSamples: [...sample(3, 62), ...sample(2.2, 65)] })).toBe('misses');
    expect(verdictOf('WPS-ROP-3.5', {})).toBe('not-proven');
  });
});

describe('nitrite', () => {
  it('W11: is not permitted in lake trout, whatever the salt', () => {
    const answer = judgeLog(chilled({ saltSamples: sample(2.6, 62.4, 120), species: LAKE_TROUT }));
    expect(checkIn(answer, 'NIT-NONE').verdict).toBe('misses');
    expect(checkIn(answer, 'WPS-ROP-3.5').verdict).toBe('meets');
    expect(answer.verdict).toBe('misses');
  });
  it('is limited to 200 ppm in salmon and 10 ppm in tuna', () => {
    expect(verdictOf('NIT-200', { saltSamples: sample(3, 62, 200), species: SALMON })).toBe('meets');
    expect(verdictOf('NIT-200', { saltSamples: sample(3, 62, 200.1), species: SALMON })).toBe('misses');
    expect(verdictOf('NIT-TUNA-10', { saltSamples: sample(3, 62, 10), species: 'Thunnus alalunga' })).toBe('meets');
    expect(verdictOf('NIT-TUNA-10', { saltSamples: sample(3, 62, 11), species: 'Thunnus alalunga' })).toBe('misses');
  });
  it('asks 100 to 200 ppm and 3.5 % of chub', () => {
    const chub = (salt: number, ppm: number) => verdictOf('NIT-CHUB', { saltSamples: sample(salt, 62, ppm), species: 'Coregonus hoyi' });
    expect([chub(3, 120), chub(2, 120), chub(3, 99), chub(3, 201)]).toEqual(['meets', 'misses', 'misses', 'misses']);
  });
});
