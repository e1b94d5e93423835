import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { USUAL_CHOICE } from '../../app/contract/requests/label-choice.ts';
import { ingredientById } from '../../app/brine/ingredients.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { labelIngredients } from '../../main/backroom/services/label-ingredients.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';
import { batchOf, soakingBatch } from './brine-tub.ts';
import { guest, LAKE_TROUT } from './fish-and-brine.ts';
import { frozenOnTray, packedKitchen, type PackedKitchen, type PackedOptions } from './packed-kitchen.ts';
import { refusal, saveKitchen } from './smoke-kitchen.ts';

const GUEST: Partial<Input<'fishLot.receive'>> = { source: guest('Ada Lind'), speciesId: LAKE_TROUT };

/** Two packs of a batch that is released, their labels printed; for sale unless a guest is named. */
async function twoPacks(options: PackedOptions = {}): Promise<{ packed: PackedKitchen; kitchen: TestKitchen; packIds: string[] }> {
  const packed = await packedKitchen({ packs: 2, ...options });
  return { packed, kitchen: packed.kitchen, packIds: packed.packs.map(({ id }) => id) };
}

async function labelOf(kitchen: TestKitchen, packIds: readonly string[], stockId = '4x3in') {
  const [label] = (await kitchen.ask('label.forPacks', { packIds: [...packIds], stockId })).labels;
  if (label === undefined) throw new Error('no label');
  return label;
}

async function choose(kitchen: TestKitchen, change: Partial<Input<'label.choose'>>): Promise<void> {
  const { pouch: _pouch, gtin: _gtin, mark: _mark, ...usual } = USUAL_CHOICE;
  await kitchen.ask('label.choose', { ...usual, pouch: null, gtin: '', mark: { kind: 'none' }, ...change });
}

const wordsOf = ({ checks }: Awaited<ReturnType<typeof labelOf>>, element: string): string => checks?.find((check) => check.element === element)?.words ?? '';

describe('a label is not printed', () => {
  it.each(['served', 'destroyed'] as const)('for a pack that was %s: it could only end on other fish', async (what) => {
    const { packed, kitchen, packIds } = await twoPacks();
    await frozenOnTray(packed);
    await kitchen.ask('pack.move', { packIds: packIds.slice(0, 1), what, placeId: null, spot: '', atMs: kitchen.clock.nowMs(), why: 'Lunch.' });
    const error = await refusal(kitchen.reply('label.printed', { packIds, stockId: '4x3in', why: 'torn' }));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(new RegExp(`-001 was ${what}`)), remedy: expect.any(String) });
    expect((await kitchen.ask('label.printed', { packIds: packIds.slice(1), stockId: '4x3in', why: 'torn' })).labels).toHaveLength(1);
  });

  it('where it is no longer what was drawn and measured', async () => {
    const { kitchen, packIds } = await twoPacks();
    const digests = (await kitchen.ask('label.forPacks', { packIds, stockId: '4x3in' })).labels.map(({ digest }) => digest);
    await choose(kitchen, { mark: { kind: 'text', text: 'Another mark' } });
    const error = await refusal(kitchen.reply('label.printed', { packIds, stockId: '4x3in', why: 'torn', digests }));
    expect(error).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('-001 has changed since it was drawn') });
    const drawn = (await kitchen.ask('label.forPacks', { packIds, stockId: '4x3in' })).labels.map(({ digest }) => digest);
    expect((await refusal(kitchen.reply('label.printed', { packIds, stockId: '4x3in', why: 'torn', digests: drawn.slice(1) }))).code).toBe('CONFLICT');
    expect((await kitchen.ask('label.printed', { packIds, stockId: '4x3in', why: 'torn', digests: drawn })).labels).toHaveLength(2);
  });

  it('of a guest’s fish on a stock too narrow for “not for sale”, however long it is', async () => {
    const { kitchen, packIds } = await twoPacks({ lot: GUEST });
    const { stock } = await kitchen.ask('label.saveStock', { stockId: null, draft: { name: '', width: '30', height: '300', unit: 'mm', sheet: null } });
    expect((await labelOf(kitchen, packIds, stock.id)).missing).toMatchObject([{ element: 'L12', where: 'labels', why: expect.stringContaining('NOT FOR SALE') }]);
    expect((await refusal(kitchen.reply('label.printed', { packIds, stockId: stock.id, why: 'torn' }))).code).toBe('RULE_BLOCKS');
    expect((await labelOf(kitchen, packIds, '2x2in')).missing).toEqual([]);
  });

  it('as a small pack where the label alone has 12 square inches, the pouch known or not', async () => {
    const { kitchen, packIds } = await twoPacks();
    await saveKitchen(kitchen, { nutritionGround: 'small-pack' });
    expect((await labelOf(kitchen, packIds, '4x3in')).missing).toMatchObject([{ element: 'L07', where: 'kitchen', why: expect.stringContaining('12') }]);
    expect((await labelOf(kitchen, packIds, '3x3in')).missing).toEqual([]);
  });
});

describe('what is said of a label', () => {
  it('claims no height and no place of the net quantity while the pouch isn’t known', async () => {
    const { kitchen, packIds } = await twoPacks();
    const unknown = await labelOf(kitchen, packIds);
    expect(wordsOf(unknown, 'L03')).not.toContain('bottom 30 %');
    expect(wordsOf(unknown, 'L12')).not.toContain('as high as the pouch’s side asks');
    expect(unknown.cautions).toMatchObject([{ why: expect.stringContaining('100 square inches') }]);
    await choose(kitchen, { pouch: { width: '6', height: '8', unit: 'in' } });
    const known = await labelOf(kitchen, packIds);
    expect(wordsOf(known, 'L03')).toContain('bottom 30 %');
    expect(wordsOf(known, 'L12')).toContain('as high as the pouch’s side asks');
  });

  it('has no trade item number on a guest’s own fish, which is no trade item', async () => {
    const { kitchen, packIds } = await twoPacks({ lot: GUEST });
    await choose(kitchen, { gtin: '9520123456788' });
    const { code, packCode } = await labelOf(kitchen, packIds, '4x6in');
    expect(code).toMatchObject({ symbology: 'datamatrix', content: packCode });
  });

  it.each(['W.I.', 'wisconsin', 'WI'])('follows the State of a kitchen that wrote “%s”', async (region) => {
    const { kitchen, packIds } = await twoPacks();
    const { address } = (await kitchen.ask('office.get', {})).kitchen;
    await saveKitchen(kitchen, { address: { ...address, region } });
    expect((await labelOf(kitchen, packIds)).blocks.map(({ text }) => text)).toContain('PERISHABLE — KEEP FROZEN PRIOR TO USE');
  });

  it.each([['CA', 'SPORT-CAUGHT - NOT FOR SALE - NOT TO BE SOLD'], ['AK', 'SPORT-CAUGHT - NOT FOR SALE - SPORT CAUGHT, NOT FOR RESALE'], ['MN', 'SPORT-CAUGHT - NOT FOR SALE']])('says of a guest’s fish in %s: %s', async (region, front) => {
    const { kitchen, packIds } = await twoPacks({ lot: GUEST });
    const { address } = (await kitchen.ask('office.get', {})).kitchen;
    await saveKitchen(kitchen, { address: { ...address, region } });
    expect((await labelOf(kitchen, packIds, '4x6in')).blocks[0]?.text).toBe(front);
  });

  it('has the words and days of a chilled pack that Michigan, New York and Ontario want', async () => {
    const { kitchen, packIds } = await twoPacks({ release: { store: 'refrigerated' }, lab: true });
    const { address } = (await kitchen.ask('office.get', {})).kitchen;
    const labelIn = async (region: string) => {
      await saveKitchen(kitchen, { address: { ...address, region } });
      return labelOf(kitchen, packIds);
    };
    const textsIn = async (region: string): Promise<string[]> => (await labelIn(region)).blocks.map(({ text }) => text);
    // Smoked on 25 November: the 14th day, counted with it, is 8 December (computed).
    expect(await textsIn('Michigan')).toEqual(expect.arrayContaining(['PERISHABLE. KEEP UNDER REFRIGERATION AT 38°F (3.3°C) OR BELOW.', 'Best if used by 08 DEC 2026']));
    const newYork = await textsIn('N.Y.');
    expect(newYork).toContain('Keep Refrigerated at 38 degrees Fahrenheit or Below.');
    expect(newYork.some((text) => text.startsWith('Best if'))).toBe(false);
    expect((await labelIn('Ont.')).missing).toMatchObject([{ element: 'L08', why: expect.stringContaining('Canada wants a sealed pack kept frozen') }]);
  });

  it('doesn’t deny the French words that a frozen pack with air carries', async () => {
    const { kitchen, packIds } = await twoPacks({ release: { pack: 'air' }, lab: true });
    await choose(kitchen, { pouch: { width: '6', height: '8', unit: 'in' }, secondLanguage: 'fr' });
    const label = await labelOf(kitchen, packIds);
    expect(label.blocks.map(({ text }) => text)).toContain('Garder congelé jusqu\u2019à utilisation');
    expect(label.cautions).toEqual([]);
  });
});

describe('an allergen', () => {
  it('of what is all water but for it is named all the same', async () => {
    const batch = await batchOf(await soakingBatch());
    const water = ingredientById(catalogue.ingredients, 'water');
    if (water === undefined) throw new Error('no water');
    const stock = { ...water, id: 'shrimp-stock', name: 'Shrimp stock', labelName: 'shrimp stock', subIngredients: ['water', 'shrimp'], allergens: ['crustacean shellfish'] };
    const card = { ...batch.card, lines: [...batch.card.lines, { ingredientId: 'shrimp-stock', name: 'Shrimp stock', grams: 300, saltGrams: 0, household: '', remark: '' }] };
    const listed = labelIngredients({ catalogue }, { ...batch, card, ownIngredients: [stock] }, batch.marketName);
    expect(listed.map(({ name }) => name)).toContain('shrimp stock');
    expect(listed.map(({ name }) => name)).not.toContain('water');
  });
});
