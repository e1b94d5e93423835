import { describe, expect, it } from 'vitest';
import { addressOf, readAddress } from '../../renderer/frame/address.ts';
import { dayInWords, formatsOf, scaleGrams } from '../../renderer/parts/format.ts';
import { draftOf, emptyForm } from '../../renderer/places/fish-in/receive-draft.ts';
import { loadDraft, pieceRows, readyInput } from '../../renderer/places/smokehouse/load-draft.ts';

const kitchen = {
  name: 'Test', address: { street: '', city: 'A', region: 'B', postalCode: '' }, timeZone: 'America/Chicago', temperatureUnit: 'F' as const,
  massUnit: 'lb' as const, kind: 'home' as const, decidingSetId: 'lodge-default', demo: true,
};

describe('an address', () => {
  it('names the place and what follows, whatever characters an id has', () => {
    expect(readAddress(addressOf('smokehouse', 'a/b c'))).toMatchObject({ place: 'smokehouse', rest: ['a/b c'] });
  });
  it('that is unknown is the first place', () => {
    expect(readAddress('#/nowhere').place).toBe('fish-in');
  });
  it('carries a query', () => {
    expect(readAddress('#/print/labels/x?stock=4x3in').query.get('stock')).toBe('4x3in');
  });
});

describe('figures on screen', () => {
  it('round half away from zero and show a minus sign', () => {
    const formats = formatsOf(kitchen);
    expect(formats.temperature(145 * 5000 - 160_000)).toBe('145.0 °F');
    expect(formats.temperature(-4 * 5000 - 160_000, 0)).toBe('−4 °F');
  });
  it('show times of the kitchen’s own zone', () => {
    expect(formatsOf(kitchen).longMoment(Date.UTC(2026, 2, 14, 19, 5))).toBe('14 Mar 2026, 14:05');
  });
  it('write the month in letters', () => {
    expect(dayInWords('2026-07-04')).toBe('4 Jul 2026');
  });
  it('give a scale tenths below 100 g and kilograms from 10 kg', () => {
    expect([scaleGrams(18.04), scaleGrams(946), scaleGrams(11_450)]).toEqual([{ figure: '18.0', unit: 'g' }, { figure: '946', unit: 'g' }, { figure: '11.45', unit: 'kg' }]);
  });
});

describe('the form of a fish lot', () => {
  const filled = { ...emptyForm(), source: 'guest' as const, ownerName: 'A. Guest', speciesId: 'lake-trout', weight: '12.5', pieces: '6' };
  it('sends what was typed, in the kitchen’s units, received now unless said otherwise', () => {
    expect(draftOf(filled, kitchen, 1000).input).toMatchObject({ source: { kind: 'guest', ownerName: 'A. Guest' }, mass: { text: '12.5', unit: 'lb' }, pieces: 6, receivedAtMs: 1000, temperature: null });
  });
  it.each(['0', '-1', '2.5', 'six', ''])('sends nothing while the pieces are “%s”', (pieces) => {
    expect(draftOf({ ...filled, pieces }, kitchen, 0)).toEqual({ input: null, gaps: ['pieces'] });
  });
  it('sends nothing while the species or the source has no name, and says which', () => {
    expect(draftOf({ ...filled, ownerName: ' ', speciesId: '' }, kitchen, 0)).toEqual({ input: null, gaps: ['ownerName', 'speciesId'] });
    expect(draftOf({ ...filled, source: 'supplier', supplierName: 'Grey Rock' }, kitchen, 0)).toEqual({ input: null, gaps: ['supplierLot'] });
  });
  it('sends nothing before the source is chosen: the two kinds of fish never mix by default', () => {
    expect(draftOf({ ...filled, source: null }, kitchen, 0).input).toBeNull();
  });
});

describe('the pieces of a new load', () => {
  const smoker = { id: 's', name: 'North', chamberInstrumentId: 'c', probeIds: ['p1', 'p2', 'p3', 'p4'], coldestPlace: '', warmestPlace: '', largestLoadGrams: null };
  it('are one a probe, at most three, in the coldest corner first', () => {
    const rows = pieceRows(smoker, 34);
    expect(rows.map((row) => row.instrumentId)).toEqual(['p1', 'p2', 'p3']);
    expect(rows[0]).toMatchObject({ thickness: '34', rackPlace: 'coldest corner' });
  });
  it('start in the place on file that decides: the coldest for hot smoke, the warmest for cold', () => {
    const known = { ...smoker, coldestPlace: 'left of the door', warmestPlace: 'over the fire' };
    expect(pieceRows(known, 34, 'hot').map((row) => row.rackPlace)).toEqual(['left of the door', 'coldest corner', 'middle']);
    expect(pieceRows(known, 34, 'cold')[0]?.rackPlace).toBe('over the fire');
    expect(pieceRows(known, 34, 'hot', 4)[0]).toMatchObject({ name: 'Piece 4', instrumentId: '' });
  });
  it('are asked about before they are lit with what was typed: a thickness that can’t be read is not known', () => {
    const [first, ...others] = pieceRows(smoker, 34, 'hot');
    if (first === undefined) throw new Error('no piece');
    const asked = readyInput(smoker, ['b1'], [{ ...first, thickness: 'thick' }, ...others]);
    expect(asked.pieces.map((piece) => piece.thicknessMm)).toEqual([null, 34, 34]);
    expect(asked.pieces[0]).toMatchObject({ batchId: 'b1', instrumentId: 'p1' });
  });
  it('are three by hand where the smoker has no probe', () => {
    expect(pieceRows({ ...smoker, probeIds: [] }, 0).map((row) => row.instrumentId)).toEqual(['', '', '']);
  });
  it('go to the batches in turn, with the smoker’s own chamber thermometer', () => {
    const draft = loadDraft(smoker, ['b1', 'b2'], pieceRows(smoker, 20));
    expect(draft.pieces.map((piece) => piece.batchId)).toEqual(['b1', 'b2', 'b1']);
    expect(draft.chamberInstrumentId).toBe('c');
  });
});
