import { describe, expect, it } from 'vitest';
import { nextPlace, readWeighed, weighKey, writeWeighed } from '../../renderer/places/brine-bench/weigh-state.ts';

const ids = ['water', 'salt', 'honey'];

describe('the ticks of a card that is weighed', () => {
  it('come back as they were kept', () => {
    expect(readWeighed(writeWeighed(new Set(['water', 'honey'])), ids)).toEqual(new Set(['water', 'honey']));
  });
  it.each([null, '', 'not JSON', '{}', '[]', '{"ingredientIds":[1]}', '{"ingredientIds":["salt"],"more":1}'])('are none where “%s” was kept', (text) => {
    expect(readWeighed(text, ids).size).toBe(0);
  });
  it('leave out what is not on the card', () => {
    expect(readWeighed(writeWeighed(new Set(['salt', 'whiskey'])), ids)).toEqual(new Set(['salt']));
  });
  it('begin anew when the brine was mended or the card is another', () => {
    const batch = { id: 'b', mends: [], card: { recipeVersion: 2 } };
    const mend = { id: 'm', atMs: 0, enteredAtMs: 0, initials: 'AB', kind: 'too-weak' as const, steps: [], before: brine(), after: brine(), voids: [] };
    const keys = [weighKey(batch), weighKey({ ...batch, mends: [mend] }), weighKey({ ...batch, card: { recipeVersion: 3 } }), weighKey({ ...batch, id: 'c' })];
    expect(new Set(keys).size).toBe(keys.length);
  });
});

describe('the place that weighing goes on at', () => {
  it('is the next that isn’t weighed, then what was passed over', () => {
    expect(nextPlace(ids, new Set(), 0)).toBe(0);
    expect(nextPlace(ids, new Set(['water']), 0)).toBe(1);
    expect(nextPlace(ids, new Set(['honey']), 2)).toBe(0);
  });
  it('is the end when everything is weighed, and on a card without lines', () => {
    expect(nextPlace(ids, new Set(ids), 1)).toBe(ids.length);
    expect(nextPlace([], new Set(), 0)).toBe(0);
  });
});

function brine() {
  return { totalGrams: 1000, percentByWeight: 7, salometerDegrees: 26.5, waterPhasePercent: 7.4, floatShowsDegrees: 30 };
}
