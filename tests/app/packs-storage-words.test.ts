import { describe, expect, it } from 'vitest';
import { storagePart, type Keeping } from '../../app/packs/storage-words.ts';
import type { ReadDates } from '../../app/packs/date-lines.ts';

const DAY = { year: 2026, month: 7, day: 14 };
const DATES: ReadDates = { packedOn: DAY, smokedOn: DAY, useBy: undefined, bestBy: undefined };
const KEEPING: Keeping = { jurisdiction: 'us-federal', process: 'hot', pack: 'vacuum', store: 'refrigerated', isCustom: false };

function wordsOf(change: Partial<Keeping>): string[] {
  return storagePart({ ...KEEPING, ...change }, DATES, DAY).blocks.map(({ text }) => text);
}

function gapsOf(change: Partial<Keeping>, dates: Partial<ReadDates> = {}): string[] {
  return storagePart({ ...KEEPING, ...change }, { ...DATES, ...dates }, DAY).missing.map(({ why }) => why);
}

describe('words for keeping and thawing', () => {
  it('says at most 38 °F on every chilled pack under federal rules', () => {
    expect(wordsOf({})).toEqual(['KEEP REFRIGERATED AT 38°F (3.3°C) OR BELOW']);
  });

  it('says to open a vacuum pouch before thawing, and does not say it of a pack that lets air in', () => {
    expect(wordsOf({ store: 'frozen' })[0]).toContain('OPEN POUCH, THAW UNDER REFRIGERATION');
    expect(wordsOf({ store: 'frozen', pack: 'air' })[0]).toBe('KEEP FROZEN AT 0°F (-18°C). THAW UNDER REFRIGERATION AT 38°F (3.3°C) OR BELOW. DO NOT REFREEZE.');
  });

  it('prints New York’s, Wisconsin’s and Alaska’s words as their texts have them', () => {
    expect(wordsOf({ jurisdiction: 'us-ny' })).toEqual(['Keep Refrigerated at 38 degrees Fahrenheit or Below.']);
    expect(wordsOf({ jurisdiction: 'us-wi', process: 'cold' })).toEqual(['PERISHABLE – KEEP REFRIGERATED AT OR BELOW 38° F']);
    expect(wordsOf({ jurisdiction: 'us-wi', store: 'frozen' })[0]).toBe('PERISHABLE — KEEP FROZEN PRIOR TO USE');
    expect(wordsOf({ jurisdiction: 'us-ak', isCustom: true })).toEqual(['REFRIGERATE BELOW 38F']);
  });

  it('keeps to the federal words where a State fixes none for this pack', () => {
    expect(wordsOf({ jurisdiction: 'us-wi', process: 'hot' })).toEqual(wordsOf({}));
    expect(wordsOf({ jurisdiction: 'us-ak', isCustom: false })).toEqual(wordsOf({}));
    expect(wordsOf({ jurisdiction: 'us-ca' })).toEqual(wordsOf({}));
  });

  it('prints Canada’s words in both languages on a sealed frozen pack, and asks for proof of salt on a chilled one', () => {
    expect(wordsOf({ jurisdiction: 'ca-on', store: 'frozen' })[0]).toBe('Keep Frozen Prior to Use / Garder congelé jusqu’à utilisation');
    expect(wordsOf({ jurisdiction: 'ca-on', pack: 'air' })[0]).toBe('Keep Refrigerated');
    expect(gapsOf({ jurisdiction: 'ca-on' })).toEqual([expect.stringContaining('9 % salt')]);
  });

  it('asks Michigan’s chilled packs for an end date within 14 days of smoking', () => {
    const michigan = { jurisdiction: 'us-mi', pack: 'air' } as const;
    expect(gapsOf(michigan)).toEqual([expect.stringContaining('14 days or less')]);
    expect(gapsOf(michigan, { useBy: { year: 2026, month: 7, day: 28 } })).toEqual([]);
    expect(gapsOf(michigan, { useBy: { year: 2026, month: 7, day: 29 } })).toEqual([expect.stringContaining('29 JUL 2026 is more than 14 days after smoking')]);
    expect(gapsOf({ ...michigan, pack: 'vacuum' }, { useBy: { year: 2026, month: 7, day: 28 } })).toHaveLength(1);
  });
});
