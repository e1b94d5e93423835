import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson, sha256Hex } from '../../main/backroom/book/canonical.ts';

describe('the canonical text of a value', () => {
  it('writes keys in order of their code units and nothing between', () => {
    expect(canonicalJson({ b: 1, a: [true, null, 'x'], Z: { y: 0.5, x: -0 } })).toBe('{"Z":{"x":0,"y":0.5},"a":[true,null,"x"],"b":1}');
  });
  it('is the same for the same data in another order', () => {
    expect(canonicalJson({ a: 1, b: { c: 2, d: 3 } })).toBe(canonicalJson({ b: { d: 3, c: 2 }, a: 1 }));
  });
  it('leaves out keys without a value, as JSON does', () => {
    expect(canonicalJson({ a: undefined, b: null })).toBe('{"b":null}');
  });
  it('mends broken surrogate pairs, because the database would', () => {
    expect(canonicalJson('\ud800x')).toBe('"\ufffdx"');
  });
  it('does not take a key called __proto__ for something else', () => {
    expect(canonicalJson(JSON.parse('{"__proto__":{"a":1},"b":2}'))).toBe('{"__proto__":{"a":1},"b":2}');
  });
  it('refuses what JSON can’t hold', () => {
    for (const value of [NaN, Infinity, () => 1, 1n, new Date(0), new Map()]) expect(() => canonicalJson({ value })).toThrow(/written into the record/);
  });
  it('reads back to a value with the same text', () => {
    fc.assert(fc.property(fc.jsonValue({ noUnicodeString: false }), (value) => {
      const text = canonicalJson(value);
      expect(canonicalJson(JSON.parse(text))).toBe(text);
    }));
  });
});

describe('a digest', () => {
  it('is SHA-256 in hexadecimal, as in the standard’s own example “abc”', () => {
    // NIST, FIPS 180-4 and its example values for SHA-256 (2015).
    expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });
});
