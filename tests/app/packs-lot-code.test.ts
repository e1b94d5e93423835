import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DIGITS_AND_LETTERS, endsWithCheckCharacter, hybridCheckCharacter } from '../../app/packs/check-character.ts';
import { dayText } from '../../app/packs/dates.ts';
import { makeFishLotCode, readFishLotCode } from '../../app/packs/fish-lot-code.ts';
import { groupLotCode, makeLotCode, makePackCode, readLotCode } from '../../app/packs/lot-code.ts';

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const LOAD_LETTERS = LETTERS.filter((letter) => letter !== 'I' && letter !== 'O');
const day = fc.date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true }).map((date) => date.toISOString().slice(0, 10));
const parts = fc.record({
  speciesCode: fc.tuple(fc.constantFrom(...LETTERS), fc.constantFrom(...LETTERS)).map((pair) => pair.join('')),
  smokedOn: day,
  loadLetter: fc.constantFrom(...LOAD_LETTERS),
});
const fishParts = fc.record({ receivedOn: day, number: fc.integer({ min: 1, max: 99 }) });

function made(outcome: ReturnType<typeof makeLotCode>): string {
  if (!outcome.ok) throw new Error(outcome.problem.message);
  return outcome.value;
}

describe('lot codes', () => {
  it('read back as what they were made of, also typed small, grouped, or with a pack’s number', () => {
    fc.assert(fc.property(parts, fc.integer({ min: 1, max: 999 }), (lot, serial) => {
      const code = made(makeLotCode(lot));
      for (const typed of [code, code.toLowerCase(), groupLotCode(code), ` ${code} `]) {
        const read = readLotCode(typed);
        expect(read).toMatchObject({ ok: true, value: { code, speciesCode: lot.speciesCode, loadLetter: lot.loadLetter, serial: undefined } });
        expect(read.ok && dayText(read.value.smokedOn)).toBe(lot.smokedOn);
      }
      expect(readLotCode(made(makePackCode(code, serial)))).toMatchObject({ ok: true, value: { code, serial } });
    }));
  });

  it('are refused with any one character wrong', () => {
    fc.assert(fc.property(parts, (lot) => {
      const code = made(makeLotCode(lot));
      for (let place = 0; place < code.length; place += 1) {
        for (const wrong of DIGITS_AND_LETTERS) {
          if (wrong === code.charAt(place)) continue;
          const typed = code.slice(0, place) + wrong + code.slice(place + 1);
          expect(endsWithCheckCharacter(typed, DIGITS_AND_LETTERS), typed).toBe(false);
          expect(readLotCode(typed).ok, typed).toBe(false);
        }
      }
    }));
  });

  it('are refused with two neighbours changed round, unless the two follow each other in the alphabet', () => {
    fc.assert(fc.property(parts, fc.integer({ min: 0, max: 7 }), (lot, place) => {
      const code = made(makeLotCode(lot));
      const [left, right] = [code.charAt(place), code.charAt(place + 1)];
      if (left === right) return;
      const swapped = code.slice(0, place) + right + left + code.slice(place + 2);
      const apart = Math.abs(DIGITS_AND_LETTERS.indexOf(left) - DIGITS_AND_LETTERS.indexOf(right));
      if (readLotCode(swapped).ok) expect([1, 35], `${code} and ${swapped}`).toContain(apart);
    }), { numRuns: 2000 });
  });

  it('miss a change of neighbours in 36 of 22,680 cases, all of neighbours in the alphabet', () => {
    let missed = 0;
    let tried = 0;
    for (const before of DIGITS_AND_LETTERS) {
      for (let left = 0; left < 36; left += 1) {
        for (let right = left + 1; right < 36; right += 1) {
          tried += 1;
          const [a, b] = [DIGITS_AND_LETTERS.charAt(left), DIGITS_AND_LETTERS.charAt(right)];
          if (hybridCheckCharacter(before + a + b, DIGITS_AND_LETTERS) !== hybridCheckCharacter(before + b + a, DIGITS_AND_LETTERS)) continue;
          missed += 1;
          expect([1, 35]).toContain(right - left);
        }
      }
    }
    expect([missed, tried]).toEqual([36, 22_680]);
  });

  it('say what is wrong with a part they can’t be made of', () => {
    expect(makeLotCode({ speciesCode: 'C0', smokedOn: '2026-07-14', loadLetter: 'A' })).toMatchObject({ ok: false, problem: { field: 'speciesCode' } });
    expect(makeLotCode({ speciesCode: 'CO', smokedOn: '2026-07-32', loadLetter: 'A' })).toMatchObject({ ok: false, problem: { field: 'smokedOn' } });
    expect(makeLotCode({ speciesCode: 'CO', smokedOn: '2026-07-14', loadLetter: 'O' })).toMatchObject({ ok: false, problem: { field: 'loadLetter' } });
    expect(makePackCode('CO26195AE', 1000)).toMatchObject({ ok: false, problem: { field: 'serial' } });
  });

  it('refuse the letters I and O, a day 000 and a pack 000 with a fitting check character', () => {
    for (const body of ['CO26195I', 'CO26195O', 'CO26000A', 'CO26367A']) {
      expect(readLotCode(body + hybridCheckCharacter(body, DIGITS_AND_LETTERS)).ok, body).toBe(false);
    }
    expect(readLotCode('CO26195AE-000').ok).toBe(false);
  });
});

describe('codes of fish lots', () => {
  it('read back as what they were made of', () => {
    fc.assert(fc.property(fishParts, (lot) => {
      const code = made(makeFishLotCode(lot));
      const read = readFishLotCode(code.toLowerCase());
      expect(read).toMatchObject({ ok: true, value: { code, number: lot.number } });
      expect(read.ok && dayText(read.value.receivedOn)).toBe(lot.receivedOn);
    }));
  });

  it('are never taken for a pack’s lot, nor a pack’s lot for them', () => {
    fc.assert(fc.property(parts, fishParts, (lot, fishLot) => {
      expect(readFishLotCode(made(makeLotCode(lot))).ok).toBe(false);
      expect(readLotCode(made(makeFishLotCode(fishLot))).ok).toBe(false);
    }));
  });

  it('refuse a hundredth lot, a wrong character and a day that is not', () => {
    expect(makeFishLotCode({ receivedOn: '2026-07-14', number: 100 })).toMatchObject({ ok: false, problem: { field: 'number' } });
    expect(makeFishLotCode({ receivedOn: '2026-07-14', number: 0 }).ok).toBe(false);
    const code = made(makeFishLotCode({ receivedOn: '2026-07-14', number: 1 }));
    expect(readFishLotCode(code.replace('26195', '26196')).ok).toBe(false);
    const noDay = 'F2636601';
    expect(readFishLotCode(noDay + hybridCheckCharacter(noDay, DIGITS_AND_LETTERS)).ok).toBe(false);
  });
});
