import { describe, expect, it } from 'vitest';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { batchInput, COHO, LAKE_TROUT, makeBatch, receive } from './fish-and-brine.ts';
import { saveRecipe } from './brine-tub.ts';

const CURED = {
  name: 'Cured', cure: 'wet', target: { brinePercent: 10 },
  ingredients: [{ id: 'water', parts: 100 }, { id: 'salt', parts: 5 }, { id: 'curing-salt', parts: 1 }],
} as const;

/** A kitchen with a recipe that cures with nitrite. */
async function curingKitchen(ground?: string): Promise<{ kitchen: TestKitchen; recipeId: string }> {
  const kitchen = await openTestKitchen();
  if (ground !== undefined) await giveGround(kitchen, ground);
  return { kitchen, recipeId: await saveRecipe(kitchen, { ...CURED, ingredients: [...CURED.ingredients] }) };
}

async function giveGround(kitchen: TestKitchen, nitriteGround: string): Promise<void> {
  const { demo: _demo, ...draft } = (await kitchen.ask('office.get', {})).kitchen;
  await kitchen.ask('office.saveKitchen', { ...draft, nitriteGround });
}

describe('curing with nitrite', () => {
  it.each([undefined, '', '   '])('is refused on card and batch in a kitchen whose paper is %j, with the law', async (ground) => {
    const { kitchen, recipeId } = await curingKitchen(ground);
    const lot = await receive(kitchen, { speciesId: COHO });
    const blocked = { ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringMatching(/Food Code, 3-502\.11.*21 CFR 172\.175/), fields: [{ path: ['recipeId'] }] } };
    expect(await kitchen.reply('brine.card', { recipeId, lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } })).toMatchObject(blocked);
    expect(await kitchen.reply('batch.make', batchInput([lot.id], { recipeId }))).toMatchObject(blocked);
  });

  it('is refused in a species without a rule, whatever paper there is', async () => {
    const { kitchen, recipeId } = await curingKitchen('Variance 12 of 3 Mar 2026');
    const lot = await receive(kitchen, { speciesId: LAKE_TROUT });
    expect(await kitchen.reply('brine.card', { recipeId, lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } })).toMatchObject({
      ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('neither is permitted in Lake Trout'), fields: [{ path: ['recipeId'] }] },
    });
  });

  it('is let through in salmon on a paper, and the card says what it brings beside the limit', async () => {
    const { kitchen, recipeId } = await curingKitchen('Variance 12 of 3 Mar 2026');
    const lot = await receive(kitchen, { speciesId: COHO });
    const { card } = await kitchen.ask('brine.card', { recipeId, lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } });
    const caution = card.cautions.find((text) => text.includes('sodium nitrite')) ?? '';
    // By hand: the curing salt's 6.25 % spread over the water of brine and fish, of which the fish keeps its share.
    const grams = (id: string): number => card.lines.find((line) => line.ingredientId === id)?.grams ?? 0;
    const fishWater = card.filletGrams * 0.7266;
    const nitrite = 0.0625 * grams('curing-salt') * (fishWater / (fishWater + grams('water')));
    const roughPpm = (1e6 * nitrite) / card.filletGrams;
    const said = Number(/about (\d+) ppm/.exec(caution)?.[1]);
    expect(said).toBeGreaterThan(0.9 * roughPpm);
    expect(said).toBeLessThan(roughPpm);
    expect(caution).toContain('200 ppm');
    expect(caution).toContain('An estimate');
    const batch = await makeBatch(kitchen, [lot.id], { recipeId });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId: batch.id });
    expect(deciding.checks.find((check) => check.checkId === 'NIT-200')?.verdict).not.toBe('does-not-apply');
  });

  it('is not asked about in a recipe without it', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { speciesId: LAKE_TROUT });
    const { card } = await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } });
    expect(card.cautions.join(' ')).not.toContain('nitrite');
  });
});
