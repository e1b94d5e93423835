import { describe, expect, it } from 'vitest';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { batchInput, COHO, guest, receive } from './fish-and-brine.ts';

describe('the brine card', () => {
  it('comes to its ratio and its strength in whole grams', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const { card } = await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } });
    expect(card).toMatchObject({ recipeName: 'Plain brine', recipeVersion: 1, ratio: 1, soakHours: 2, turnHours: [1], brineTicks: 30_000, sugarPercent: 0 });
    expect(card.filletGrams).toBeCloseTo(4082.33133, 5);
    for (const line of card.lines) expect(Number.isInteger(line.grams)).toBe(true);
    const salt = card.lines.find((line) => line.ingredientId === 'salt');
    // 60 °SAL is 0.6 × 26.395 = 15.837 % of 4082 g of brine.
    expect(salt?.grams).toBe(647);
    expect(card.totalGrams).toBe(card.lines.reduce((sum, line) => sum + line.grams, 0));
    expect(card.totalGrams).toBeCloseTo(4082.33, -1);
    expect(card.percentByWeight).toBeCloseTo((100 * 647) / card.totalGrams, 10);
    expect(card.salometerDegrees).toBeCloseTo(60, 0);
  });

  it('measures in quarts for pounds and in litres for kilograms', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const ask = async () => (await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } })).card.lines.find((line) => line.ingredientId === 'water')?.household;
    expect(await ask()).toMatch(/quarts$/);
    const { kitchen: settings } = await kitchen.ask('office.get', {});
    const { demo: _demo, ...draft } = settings;
    await kitchen.ask('office.saveKitchen', { ...draft, massUnit: 'kg' });
    expect(await ask()).toMatch(/^3\.4 litres$/);
  });

  it('shows its finished salt as an estimate, with the yield it rests on', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { speciesId: COHO });
    const ask = (yieldPercent?: number) => kitchen.ask('brine.card', { recipeId: 'dill-lemon-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' }, ...(yieldPercent === undefined ? {} : { yieldPercent }) });
    const usual = (await ask()).card.finishedEstimate;
    const dry = (await ask(70)).card.finishedEstimate;
    expect(usual.yieldPercent).toBe(80);
    expect(dry.yieldPercent).toBe(70);
    expect(dry.percent).toBeGreaterThan(usual.percent);
    expect(usual.low).toBeLessThan(usual.percent);
    expect(usual.high).toBeGreaterThan(usual.percent);
  });

  it('says from which source each figure comes', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const { card } = await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } });
    const figures = card.workings.map((working) => working.figure);
    expect(new Set(figures).size).toBe(figures.length);
    expect(figures).toEqual(expect.arrayContaining([
      ...card.lines.map((line) => `line.${line.ingredientId}`), 'ratio', 'target', 'totalGrams', 'litres', 'percentByWeight', 'salometerDegrees', 'waterPhasePercent',
      'sugarPercent', 'floatShowsDegrees', 'brineTicks', 'firstSolidTicks', 'finishedEstimate', 'soakHours', 'turnHours',
    ]));
    for (const working of card.workings) expect(working.source).toMatch(/read|computed|from memory|common practice|this kitchen’s recipe/i);
  });

  it('explains its figures by the figures of this very card', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const { card } = await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } });
    const textOf = (figure: string) => card.workings.find((working) => working.figure === figure)?.text ?? '';
    expect(textOf('line.salt')).toContain('Solved for 60 °SAL');
    expect(textOf('line.salt')).toContain('647 g');
    expect(textOf('totalGrams')).toContain(`= ${card.totalGrams} g`);
    expect(textOf('salometerDegrees')).toContain(`${card.percentByWeight.toFixed(2)} % of salt over 26.395 %`);
    expect(textOf('firstSolidTicks')).toContain('ice begins to form at');
    expect(textOf('turnHours')).toContain('after 1 h');
    expect(card.workings.find((working) => working.figure === 'soakHours')?.source).toContain('common practice');
  });

  it('warns of a guest’s catch, and in Alaska of its permit', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen, { source: guest('Ida Moen') });
    const ask = async () => (await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } })).card.cautions.join(' ');
    expect(await ask()).toContain('advisory');
    expect(await ask()).not.toContain('DEC');
    const { demo: _demo, ...draft } = (await kitchen.ask('office.get', {})).kitchen;
    await kitchen.ask('office.saveKitchen', { ...draft, address: { ...draft.address, region: 'Alaska' } });
    expect(await ask()).toContain('DEC seafood permit');
  });

  it('changes nothing in the book', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } });
    expect((await kitchen.ask('batch.list', {})).batches).toEqual([]);
  });

  it.each([0, -5, 101])('refuses a yield of %s %%', async (yieldPercent) => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const refused = await kitchen.reply('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' }, yieldPercent });
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['yieldPercent'] }] } });
  });

  it('refuses a recipe that is not there', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    expect(await kitchen.reply('batch.make', batchInput([lot.id], { recipeId: 'nowhere' }))).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });

  it('offers a new book only the recipes meant for every book', async () => {
    const kitchen = await openTestKitchen();
    const { recipes } = await kitchen.ask('recipe.list', {});
    expect(recipes.map((recipe) => recipe.id)).toEqual(['plain-brine', 'dill-lemon-brine']);
    expect(recipes[0]?.ingredients[0]).toEqual({ id: 'water', name: 'Water', parts: 20 });
  });
});
