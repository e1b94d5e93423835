/** Check characters against published strings: ISO/IEC 7064 as in python-stdnum's own tests (read), GS1 as in its standards. */
import { describe, expect, it } from 'vitest';
import { DIGITS, DIGITS_AND_LETTERS, endsWithCheckCharacter, hybridCheckCharacter } from '../../app/packs/check-character.ts';
import { makeLotCode, readLotCode } from '../../app/packs/lot-code.ts';
import { gs1CheckDigit } from '../../app/packs/pack-code.ts';

describe('ISO/IEC 7064 MOD 37,36', () => {
  // First row: python-stdnum stdnum/iso7064/mod_37_36.py (read). The others: run with the same library.
  it.each([
    ['A12425GABC1234002', 'M'],
    ['CO26195A', 'E'],
    ['CO26195B', 'C'],
    ['SO26195A', 'U'],
    ['KI26201C', '3'],
    ['SB26195A', '4'],
    ['TR26001A', '7'],
    ['HS26366A', 'S'],
    ['CO26194A', 'I'],
    ['KI26195A', '5'],
  ])('gives %s the check character %s', (text, check) => {
    expect(hybridCheckCharacter(text, DIGITS_AND_LETTERS)).toBe(check);
    expect(endsWithCheckCharacter(text + check, DIGITS_AND_LETTERS)).toBe(true);
  });
});

describe('ISO/IEC 7064 MOD 11,10, the same code over digits', () => {
  // python-stdnum stdnum/iso7064/mod_11_10.py (read).
  it.each([
    ['00200667308', '5'],
    ['79462', '3'],
  ])('gives %s the check digit %s', (text, check) => {
    expect(hybridCheckCharacter(text, DIGITS)).toBe(check);
    expect(endsWithCheckCharacter(text + check, DIGITS)).toBe(true);
  });
});

describe('lot codes', () => {
  it('makes CO26195AE for coho smoked on 14 July 2026 in load A', () => {
    expect(makeLotCode({ speciesCode: 'CO', smokedOn: '2026-07-14', loadLetter: 'A' })).toEqual({ ok: true, value: 'CO26195AE' });
  });

  it('refuses a zero typed for the letter O, and two digits changed round, and takes small letters', () => {
    expect(readLotCode('C026195AE').ok).toBe(false);
    expect(readLotCode('CO26159AE').ok).toBe(false);
    const read = readLotCode('co26195ae');
    expect(read.ok && read.value.code).toBe('CO26195AE');
  });

  it('refuses HS26366AS, whose check character fits but whose day 366 is not in 2026', () => {
    const read = readLotCode('HS26366AS');
    expect(!read.ok && read.problem.message).toContain('day 366');
    expect(readLotCode(`CO28366A${hybridCheckCharacter('CO28366A', DIGITS_AND_LETTERS)}`).ok).toBe(true);
  });
});

describe('GS1 check digits', () => {
  // GS1 Digital Link standard, GS1 Barcode Syntax Dictionary lint_csum.c (read); 6291041500213 and 376104250021234569 from memory.
  it.each([
    ['0952012345678', '8'],
    ['952012345678', '8'],
    ['1952012345678', '5'],
    ['1234567890123', '1'],
    ['123456789012', '8'],
    ['0234567', '3'],
    ['41600033610', '8'],
    ['12345678901234567', '5'],
    ['629104150021', '3'],
    ['37610425002123456', '9'],
    ['09520123456789123', '5'],
  ])('gives %s the digit %s', (digits, check) => {
    expect(gs1CheckDigit(digits)).toBe(check);
  });
});
