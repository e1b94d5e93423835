import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeLotCode } from '../../app/packs/lot-code.ts';
import { gs1CheckDigit, packCode } from '../../app/packs/pack-code.ts';
import { readLotCode } from '../../app/packs/lot-code.ts';
import { declareNetWeight } from '../../app/packs/net-weight.ts';
import { readScan } from '../../app/packs/scan-code.ts';

const lots = fc.record({ speciesCode: fc.constantFrom('CO', 'LT', 'WF', 'RT'), day: fc.integer({ min: 1, max: 28 }), month: fc.integer({ min: 1, max: 12 }), loadLetter: fc.constantFrom(...'ABCDEFGHJKLMNPQRSTUVWXYZ') })
  .map(({ speciesCode, day, month, loadLetter }) => {
    const made = makeLotCode({ speciesCode, smokedOn: `2026-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`, loadLetter });
    if (!made.ok) throw new Error(made.problem.message);
    return made.value;
  });

describe('what a scanner types', () => {
  it('is read back from every element string this program prints, whatever becomes of the separator', () => {
    fc.assert(fc.property(lots, fc.integer({ min: 1, max: 999 }), fc.stringMatching(/^[0-9]{13}$/), fc.integer({ min: 50, max: 5000 }), (lot, serial, digits, grams) => {
      const gtin = `${digits}${gs1CheckDigit(digits)}`;
      const read = readLotCode(`${lot}-${String(serial).padStart(3, '0')}`);
      if (!read.ok) throw new Error(read.problem.message);
      const weight = declareNetWeight(grams, 'random');
      if (!weight.ok) throw new Error(weight.problem.message);
      const { content } = packCode(read.value, weight.value, gtin, { packedOn: { year: 2026, month: 7, day: 1 }, bestBy: undefined, useBy: undefined });
      const raw = content.replace(/\((01|3103|13|10)\)/g, '$1');
      const expected = { code: `${lot}-${String(serial).padStart(3, '0')}`, lot, serial, gtin };
      for (const text of [content, raw.replace('(21)', '\u001d21'), raw.replace('(21)', '^]21'), raw.replace('(21)', '21'), `]d2${raw.replace('(21)', '\u001d21')}`]) {
        expect(readScan(text)).toEqual({ ok: true, value: expected });
      }
    }));
  });

  it('is refused whenever one character of the lot is wrong', () => {
    fc.assert(fc.property(lots, fc.integer({ min: 0, max: 8 }), fc.constantFrom(...'0123456789ABCDEFGHJKLMNPQRSTUVWXYZ'), (lot, at, other) => {
      fc.pre(lot.charAt(at) !== other);
      expect(readScan(`${lot.slice(0, at)}${other}${lot.slice(at + 1)}-001`).ok).toBe(false);
    }));
  });

  it('never throws, whatever is typed, and says a sentence', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
      const read = readScan(text);
      expect(read.ok || (read.problem.message.endsWith('.') && read.problem.message.length < 200)).toBe(true);
    }));
  });
});
