/** Two whole labels, and the rows of the request, through the request's own schemas and service. */
import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import fish from '../../assets/fish/fish.json' with { type: 'json' };
import { LabelPreviewIn, LabelPreviewOut } from '../../app/contract/requests/label-preview.ts';
import { labelPreviewServices } from '../../main/backroom/services/label-preview.ts';

type Input = z.input<typeof LabelPreviewIn>;
const ROOM = { catalogue: { fish: fish.species } };
const KEEP_FROZEN = 'KEEP FROZEN AT 0°F (-18°C). OPEN POUCH, THAW UNDER REFRIGERATION AT 38°F (3.3°C) OR BELOW. DO NOT REFREEZE.';
const RETAIL: Input = {
  kitchen: { name: 'Example Lodge LLC', address: '1 River Rd', city: 'Anytown', region: 'AK', postalCode: '99999' },
  identity: { process: 'hot', marketName: 'Coho Salmon', form: 'fillet portion - wild caught' },
  netGrams: 341,
  ingredients: [
    { name: 'Coho salmon', grams: 10_000, allergens: ['fish: Coho salmon'] },
    { name: 'salt', grams: 300 },
    { name: 'brown sugar', grams: 180 },
    { name: 'soy sauce', grams: 100, subIngredients: ['water', 'wheat', 'soybeans', 'salt'], allergens: ['soybeans', 'wheat'] },
    { name: 'garlic powder', grams: 20 },
  ],
  dates: { smokedOn: '2026-07-14', packedOn: '2026-07-14', bestBy: '2026-10-12' },
  lot: 'CO26195AE',
  pack: 'vacuum',
  store: 'frozen',
  jurisdiction: 'us-federal',
  nutritionGround: 'very-small',
};
const { nutritionGround: _ground, ...WITHOUT_GROUND } = RETAIL;
const CUSTOM: Input = {
  ...WITHOUT_GROUND,
  kitchen: { name: 'Example Lodge LLC', address: '', city: 'Anytown', region: 'AK', postalCode: '99999' },
  identity: { process: 'hot', marketName: 'Chinook Salmon' },
  netGrams: 447,
  ingredients: [{ name: 'Chinook salmon', grams: 2000 }, { name: 'salt', grams: 60 }, { name: 'brown sugar', grams: 40 }],
  dates: { packedOn: '2026-07-14', bestBy: '2026-10-12' },
  lot: 'KI26195A5',
  owner: { name: 'A. Guest', licence: '1234567', caughtOn: '2026-07-11/2026-07-12', caughtArea: 'FAO 67', pieces: 2 },
};

function preview(input: Input): z.output<typeof LabelPreviewOut> {
  return LabelPreviewOut.parse(labelPreviewServices['label.preview'](ROOM, LabelPreviewIn.parse(input)));
}

function linesOf(input: Input): string[] {
  return preview(input).blocks.map(({ element, text }) => `${element} ${text}`);
}

describe('label.preview', () => {
  it('writes the whole label of a frozen retail pack, with nothing missing', () => {
    expect(linesOf(RETAIL)).toEqual([
      'L01 SMOKED COHO SALMON',
      'L02 Hot smoked fillet portion - wild caught',
      `L08 ${KEEP_FROZEN}`,
      'L04 Ingredients: Coho salmon, salt, brown sugar, soy sauce (water, wheat, soybeans, salt), garlic powder.',
      'L05 Contains: Coho salmon, wheat, soybeans.',
      'L06 Example Lodge LLC, 1 River Rd, Anytown, AK 99999',
      'L09 Lot CO26195AE',
      'L09 Smoked 14 JUL 2026',
      'L09 Packed 14 JUL 2026',
      'L09 Best if used by 12 OCT 2026',
      'L03 NET WT 0.75 lb (341 g)',
    ]);
    expect(preview(RETAIL).missing).toEqual([]);
    expect(preview(RETAIL).code).toEqual({ symbology: 'datamatrix', content: 'CO26195AE' });
  });

  it('writes the whole label of a guest’s own fish, with nothing missing', () => {
    expect(linesOf(CUSTOM)).toEqual([
      'L15 SPORT-CAUGHT - NOT FOR SALE',
      'L01 Smoked Chinook Salmon - 2 pieces',
      'L15 Owner: A. Guest',
      'L15 Licence: 1234567',
      'L15 Caught: 11-12 JUL 2026',
      'L15 Area: FAO 67',
      `L08 ${KEEP_FROZEN}`,
      'L04 Ingredients: Chinook salmon, salt, brown sugar.',
      'L05 Contains: Chinook Salmon.',
      'L03 NET WT 0.98 lb (447 g)',
      'L09 Lot KI26195A5',
      'L09 Packed 14 JUL 2026',
      'L09 Best if used by 12 OCT 2026',
      'L06 Processed by Example Lodge LLC, Anytown, AK 99999',
    ]);
    expect(preview(CUSTOM).missing).toEqual([]);
  });

  it('adds NOT TO BE SOLD to a guest’s pack in California (Fish and Game Code 7230, read)', () => {
    expect(linesOf({ ...CUSTOM, jurisdiction: 'us-ca' })[0]).toBe('L15 SPORT-CAUGHT - NOT FOR SALE - NOT TO BE SOLD');
    expect(linesOf({ ...CUSTOM, jurisdiction: 'us-ny' })[0]).toBe('L15 SPORT-CAUGHT - NOT FOR SALE');
  });

  it('puts the printed, rounded-down weight into a GS1 code', () => {
    const { code } = preview({ ...RETAIL, netGrams: 341.97, gtin: '9520123456788' });
    expect(code).toEqual({ symbology: 'gs1datamatrix', content: '(01)09520123456788(3103)000341(13)260714(15)261012(10)CO26195AE' });
  });

  it('keeps a use-by date off a chilled vacuum pack and says that it needs proof', () => {
    const dates = { smokedOn: '2026-07-14', packedOn: '2026-07-14', useBy: '2026-07-28' };
    const chilled = preview({ ...RETAIL, store: 'refrigerated', dates });
    expect(chilled.blocks.some(({ text }) => text.includes('28 JUL'))).toBe(false);
    expect(chilled.missing.map(({ why }) => why)).toEqual([expect.stringContaining('The use-by date 28 JUL 2026 needs proof')]);
    expect(linesOf({ ...RETAIL, store: 'refrigerated', pack: 'air', dates })).toContain('L09 Use by 28 JUL 2026');
    expect(linesOf({ ...RETAIL, dates })).toContain('L09 Use by 28 JUL 2026');
  });

  it('says that a pack for sale has no ground for leaving off Nutrition Facts (21 CFR 101.9(j), read)', () => {
    expect(preview(WITHOUT_GROUND).missing.map(({ element }) => element)).toEqual(['L07']);
    const claimed = preview({ ...RETAIL, identity: { ...RETAIL.identity, form: 'fillet, high in omega-3' } });
    expect(claimed.missing).toEqual([{ element: 'L07', why: expect.stringContaining('“omega-3” is a claim') }]);
  });

  it('refuses black cod as the identity and names sablefish', () => {
    const name = { process: 'hot' as const, marketName: 'Black Cod' };
    expect(() => preview({ ...RETAIL, identity: name })).toThrow(expect.objectContaining({ code: 'INVALID_INPUT', remedy: 'Use Sablefish.' }));
  });
});
