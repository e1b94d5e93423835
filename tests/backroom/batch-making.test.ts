import { describe, expect, it } from 'vitest';
import { ingredientById } from '../../app/brine/ingredients.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { refuseForbiddenNitrite } from '../../main/backroom/services/nitrite-rule.ts';
import { speciesOf } from '../../main/backroom/services/species.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { batchInput, COHO, guest, LAKE_TROUT, makeBatch, receive, WHITEFISH } from './fish-and-brine.ts';

describe('making a batch', () => {
  it('keeps the card it will be brined by, with names and the deciding set of the kitchen', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const { card } = await kitchen.ask('brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' }, thickestMm: 25, skin: 'on' });
    const batch = await makeBatch(kitchen, [lot.id]);
    expect(batch).toMatchObject({
      shortName: 'WF 329', lotCode: null, lotCodes: [lot.code], marketName: 'Lake Whitefish', scientificName: WHITEFISH,
      sourceKind: 'supplier', ownerName: null, stage: 'ready', setId: 'lodge-default', madeBy: 'MG', soak: [], loadId: null,
    });
    expect(batch.card).toEqual(card);
    expect((await kitchen.ask('batch.get', { batchId: batch.id })).batch).toEqual(batch);
  });

  it('adds a letter to the short name of a second batch of a species that day, and none the day after', async () => {
    const kitchen = await openTestKitchen();
    const lots = [await receive(kitchen), await receive(kitchen), await receive(kitchen), await receive(kitchen, { speciesId: LAKE_TROUT })];
    const names: string[] = [];
    for (const lot of lots) names.push((await makeBatch(kitchen, [lot.id], { fillets: { text: '4', unit: 'lb' } })).shortName);
    kitchen.clock.advance(24 * 3_600_000);
    names.push((await makeBatch(kitchen, [lots[0]?.id ?? ''], { fillets: { text: '4', unit: 'lb' } })).shortName);
    expect(names).toEqual(['WF 329', 'WF 329 B', 'WF 329 C', 'LT 329', 'WF 330']);
  });

  it('lists the latest first', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const first = await makeBatch(kitchen, [lot.id], { fillets: { text: '4', unit: 'lb' } });
    const second = await makeBatch(kitchen, [lot.id], { fillets: { text: '4', unit: 'lb' } });
    expect((await kitchen.ask('batch.list', {})).batches.map((batch) => batch.id)).toEqual([second.id, first.id]);
  });

  it('takes two lots of two suppliers, and names both', async () => {
    const kitchen = await openTestKitchen();
    const lots = [await receive(kitchen), await receive(kitchen, { source: { kind: 'supplier', supplierName: 'Other Boat', supplierLot: '7' } })];
    const batch = await makeBatch(kitchen, lots.map((lot) => lot.id), { fillets: { text: '18', unit: 'lb' } });
    expect(batch.lotCodes).toEqual(lots.map((lot) => lot.code));
  });

  it('names the guest whose catch it is', async () => {
    const kitchen = await openTestKitchen();
    const lots = [await receive(kitchen, { source: guest('Ida Moen', 'L-77') }), await receive(kitchen, { source: guest(' ida  moen') })];
    const batch = await makeBatch(kitchen, lots.map((lot) => lot.id));
    expect(batch).toMatchObject({ sourceKind: 'guest', ownerName: 'Ida Moen' });
    expect(batch.card.cautions.join(' ')).toContain('not for sale');
  });
});

describe('fish that may not share a tub', () => {
  it('keeps a guest’s catch and bought fish apart', async () => {
    const kitchen = await openTestKitchen();
    const [own, bought] = [await receive(kitchen, { source: guest('Ida Moen') }), await receive(kitchen)];
    for (const lotIds of [[own.id, bought.id], [bought.id, own.id]]) {
      const refused = await kitchen.reply('batch.make', batchInput(lotIds));
      expect(refused).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', fields: [{ path: ['lotIds'] }] } });
      expect(refused.ok ? '' : refused.error.message).toContain(`Lot ${own.code} is a guest’s own catch and lot ${bought.code} was bought`);
    }
    expect((await kitchen.ask('batch.list', {})).batches).toEqual([]);
  });

  it('keeps two species apart', async () => {
    const kitchen = await openTestKitchen();
    const lots = [await receive(kitchen), await receive(kitchen, { speciesId: LAKE_TROUT })];
    const refused = await kitchen.reply('batch.make', batchInput(lots.map((lot) => lot.id)));
    expect(refused).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringMatching(/Lake Whitefish.*Lake Trout/) } });
  });

  it('keeps two guests’ fish apart, also where they share a name under two licences', async () => {
    const kitchen = await openTestKitchen();
    const ida = await receive(kitchen, { source: guest('Ida Moen', 'L-77') });
    for (const source of [guest('Per Aune'), guest('Ida Moen', 'L-78')]) {
      const other = await receive(kitchen, { source });
      const refused = await kitchen.reply('brine.card', { recipeId: 'plain-brine', lotIds: [ida.id, other.id], fillets: { text: '9', unit: 'lb' } });
      expect(refused).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('each guest gets their own fish back') } });
    }
  });

  it('refuses a lot named twice and a lot that is not there', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    expect(await kitchen.reply('batch.make', batchInput([lot.id, lot.id]))).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT' } });
    expect(await kitchen.reply('batch.make', batchInput(['nowhere']))).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });
});

describe('weights of a batch', () => {
  it.each(['0', '-1', '12,5', 'x'])('refuses fillets of “%s”', async (text) => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const refused = await kitchen.reply('batch.make', batchInput([lot.id], { fillets: { text, unit: 'lb' } }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['fillets'] }] } });
  });

  it('takes two hundredths more than was received for the scales, and not more', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const refused = await kitchen.reply('batch.make', batchInput([lot.id], { fillets: { text: '10.21', unit: 'lb' } }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['fillets'] }], remedy: expect.stringContaining('Weigh again') } });
    expect(await kitchen.reply('batch.make', batchInput([lot.id], { fillets: { text: '10.19', unit: 'lb' } }))).toMatchObject({ ok: true });
  });

  it('refuses fish that earlier batches of the same lots have taken already', async () => {
    const kitchen = await openTestKitchen();
    const [one, two] = [await receive(kitchen), await receive(kitchen)];
    await makeBatch(kitchen, [one.id, two.id], { fillets: { text: '15', unit: 'lb' } });
    const refused = await kitchen.reply('batch.make', batchInput([two.id], { fillets: { text: '6', unit: 'lb' } }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('2.27 kg (5.00 lb) is left') } });
    expect(await kitchen.reply('batch.make', batchInput([two.id], { fillets: { text: '5', unit: 'lb' } }))).toMatchObject({ ok: true });
  });
});

describe('what decides a batch', () => {
  it('refuses a set that may only be compared against, until its figures are confirmed', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    const refused = await kitchen.reply('batch.make', batchInput([lot.id], { setId: 'us-fda-sale' }));
    expect(refused).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', fields: [{ path: ['setId'] }] } });
    const { sets } = await kitchen.ask('limits.list', {});
    const unseen = sets.find((set) => set.setId === 'us-fda-sale')?.checks.filter((check) => ['second-hand', 'from memory'].includes(check.mark)) ?? [];
    expect(unseen.length).toBeGreaterThan(0);
    for (const { checkId } of unseen) await kitchen.ask('limits.confirm', { checkId, document: 'Our HACCP plan of 2026, page 4' });
    expect(await kitchen.reply('batch.make', batchInput([lot.id], { setId: 'us-fda-sale' }))).toMatchObject({ ok: true, value: { batch: { setId: 'us-fda-sale' } } });
  });

  it('refuses a set that is not there', async () => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    expect(await kitchen.reply('batch.make', batchInput([lot.id], { setId: 'nowhere' }))).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });
});

describe('nitrite', () => {
  const curingSalt = { ...(ingredientById(catalogue.ingredients, 'salt') ?? fail()), id: 'curing-salt', name: 'Curing salt', subIngredients: ['salt', 'sodium nitrite'] };
  const recipe = {
    id: 'cured', name: 'Cured', version: 1, cure: 'wet', ratio: 1, target: { brinePercent: 10 }, saltIngredientId: 'salt', soakHours: 2, turnHours: [], process: 'either', note: '',
    ingredients: [{ id: 'water', name: 'Water', parts: 10 }, { id: 'salt', name: 'Salt', parts: 1 }, { id: 'curing-salt', name: 'Curing salt', parts: 0.1 }],
  } as const;
  const room = { catalogue: { ...catalogue, fish: catalogue.fish, species: catalogue.species, ingredients: [...catalogue.ingredients, curingSalt] } };

  it('is refused in a species that no rule permits it for', () => {
    const forbidden = () => refuseForbiddenNitrite(room, { ...recipe, ingredients: [...recipe.ingredients], turnHours: [] }, speciesOf(room, LAKE_TROUT));
    expect(forbidden).toThrow(/neither is permitted in Lake Trout/);
  });

  it('is let through in salmon, whose maximum the laboratory result is judged by', () => {
    expect(() => refuseForbiddenNitrite(room, { ...recipe, ingredients: [...recipe.ingredients], turnHours: [] }, speciesOf(room, COHO))).not.toThrow();
  });

  it('is not seen in a recipe without it', () => {
    const plain = recipe.ingredients.filter((ingredient) => ingredient.id !== 'curing-salt');
    expect(() => refuseForbiddenNitrite(room, { ...recipe, ingredients: plain, turnHours: [] }, speciesOf(room, LAKE_TROUT))).not.toThrow();
  });
});

function fail(): never {
  throw new Error('the list of ingredients has no salt');
}
