import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addsUp, balanceOf, netOfGross } from '../../app/packs/portion-balance.ts';
import { inOrderOfTaking, isExpiring, bestByOf } from '../../app/packs/stock-order.ts';
import { readSignature } from '../../app/packs/stock-signature.ts';
import { timesTogether } from '../../app/packs/stock-trays.ts';

describe('how a batch’s weights add up', () => {
  it('gives 50 g unaccounted of 9,000 g with packs of 8,400, 350 of trim and 200 left', () => {
    const balance = balanceOf({ filletsGrams: 12_000, finishedGrams: 9000, packGrams: [4200, 4200], closed: [{ trimGrams: 350, remainderGrams: 200 }] });
    expect(balance).toMatchObject({ packedGrams: 8400, yieldOfFilletsPercent: 70, unaccountedGrams: 50, leftGrams: 250 });
    expect(balance.unaccountedPercent).toBeCloseTo(0.556, 3);
  });

  it('counts the trim of every portioning and only the last remainder', () => {
    const closed = [{ trimGrams: 100, remainderGrams: 900 }, { trimGrams: 50, remainderGrams: 0 }];
    expect(balanceOf({ filletsGrams: 4000, finishedGrams: 3000, packGrams: [2850], closed })).toMatchObject({ trimGrams: 150, remainderGrams: 0, unaccountedGrams: 0 });
  });

  it('adds up at exactly the tolerance and not a gram over it, either way', () => {
    const at = (grams: number) => addsUp(balanceOf({ filletsGrams: 2000, finishedGrams: 1000, packGrams: [1000 - grams], closed: [] }), 1000, 2);
    expect([at(20), at(21), at(-20), at(-21)]).toEqual([true, false, true, false]);
  });

  it('loses nothing: finished is packs, trim, remainder and what is unaccounted', () => {
    const grams = fc.double({ min: 0.1, max: 5000, noNaN: true });
    fc.assert(fc.property(grams, fc.array(grams, { maxLength: 30 }), fc.array(fc.record({ trimGrams: grams, remainderGrams: grams }), { maxLength: 4 }), (finishedGrams, packGrams, closed) => {
      const { packedGrams, trimGrams, remainderGrams, unaccountedGrams } = balanceOf({ filletsGrams: 10_000, finishedGrams, packGrams, closed });
      expect(packedGrams + trimGrams + remainderGrams + (unaccountedGrams ?? NaN)).toBeCloseTo(finishedGrams, 5);
    }));
  });

  it('knows no pack lighter than its bag', () => {
    expect([netOfGross(500, 12), netOfGross(12, 12), netOfGross(10, 12)]).toEqual([488, undefined, undefined]);
  });
});

describe('the order of taking', () => {
  it('is by species, date, sealing and code', () => {
    const pack = (packId: string, marketName: string, bestBy: string | null, sealedAtMs: number) => ({ packId, code: packId, marketName, bestBy, sealedAtMs });
    const packs = [
      pack('d', 'Whitefish', '2026-03-01', 1), pack('c', 'Lake Trout', '2026-03-02', 1), pack('b', 'Lake Trout', '2026-03-01', 2), pack('a', 'Lake Trout', '2026-03-01', 2), pack('e', 'Lake Trout', '2026-03-01', 1),
    ];
    expect(inOrderOfTaking(packs).map(({ packId }) => packId)).toEqual(['e', 'a', 'b', 'c', 'd']);
  });

  it('names a pack from a fortnight before its date', () => {
    expect([isExpiring('2026-03-15', '2026-03-01'), isExpiring('2026-03-16', '2026-03-01'), isExpiring('2026-02-01', '2026-03-01'), isExpiring(null, '2026-03-01')]).toEqual([true, false, true, false]);
    expect(bestByOf('refrigerated', { smokedOn: '2026-06-01', packedOn: '2026-06-03' })).toBe('2026-06-14');
    expect(bestByOf('frozen', { smokedOn: '2026-06-01', packedOn: '2026-06-03' })).toBe('2026-09-01');
  });
});

describe('trays together', () => {
  const tray = (sealedAtMs: number, intoFreezerAtMs: number, frozenAtMs: number | null, outAtMs: number | null) => ({ sealedAtMs, intoFreezerAtMs, frozenAtMs, outAtMs });

  it('are the earliest sealed, the latest in, the latest frozen; frozen and out only when all are', () => {
    expect(timesTogether([tray(1, 2, 9, null), tray(3, 4, 8, 20)])).toEqual({ sealedAtMs: 1, intoFreezerAtMs: 4, frozenAtMs: 9, firstOutAtMs: 20, lastOutAtMs: null });
    expect(timesTogether([tray(1, 2, null, 30), tray(3, 4, 8, 20)])).toEqual({ sealedAtMs: 1, intoFreezerAtMs: 4, frozenAtMs: null, firstOutAtMs: 20, lastOutAtMs: 30 });
    expect(timesTogether([])).toBeUndefined();
  });

  it('say the same in whatever order they were made', () => {
    const one = fc.record({ sealedAtMs: fc.nat(9), intoFreezerAtMs: fc.nat(9), frozenAtMs: fc.option(fc.nat(9)), outAtMs: fc.option(fc.nat(9)) });
    fc.assert(fc.property(fc.array(one, { minLength: 1, maxLength: 6 }), (trays) => {
      expect(timesTogether(trays.toReversed())).toEqual(timesTogether(trays));
    }));
  });
});

describe('a signature', () => {
  it('needs strokes, and takes nothing but moves and lines', () => {
    expect(readSignature('M10,10 L60.5,40 L90,12')).toMatchObject({ ok: true });
    for (const path of ['', 'M10,10', 'M1,1 L2,2', 'M10,10 L60,40" onload="x', 'M10,10 C1,1 2,2 3,3', '<script>']) expect(readSignature(path).ok).toBe(false);
  });
});
