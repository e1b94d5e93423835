import { describe, expect, it } from 'vitest';
import type { Output } from '../../app/contract/contract.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { COHO } from './fish-and-brine.ts';
import { openWatchedKitchen } from './recipe-drafts.ts';

type View = Output<'taste.get'>;
type Unit = 'g' | 'kg' | 'lb' | 'oz';

async function start(kitchen: TestKitchen, more: { name?: string; speciesId?: string; fillets?: { text: string; unit: Unit } } = {}): Promise<string> {
  const { tasting } = await kitchen.ask('taste.start', { name: more.name ?? 'Tub by taste', speciesId: more.speciesId ?? null, fillets: more.fillets ?? null });
  return tasting.id;
}

async function add(kitchen: TestKitchen, tastingId: string, ingredientId: string, text: string, unit: Unit = 'g', scale: 'alone' | 'running' = 'alone'): Promise<View> {
  return kitchen.ask('taste.add', { tastingId, ingredientId, weighed: { text, unit }, scale });
}

describe('a tasting', () => {
  it('is named for the day unless it is given a name, and is listed until it is a recipe', async () => {
    const kitchen = await openTestKitchen();
    const names: string[] = [];
    for (const name of ['', '', 'Rosemary']) names.push((await kitchen.ask('taste.start', { name, speciesId: null, fillets: null })).tasting.name);
    expect(names).toEqual(['Tasting of 25 Nov', 'Tasting of 25 Nov (2)', 'Rosemary']);
    expect((await kitchen.ask('taste.list', {})).tastings.map(({ tasting }) => tasting.name)).toEqual([...names].toReversed());
    expect(kitchen.announced().map(({ subject }) => subject)).toEqual(['tasting', 'tasting', 'tasting']);
  });

  it('begins with zeros, and with null where there is nothing to tell', async () => {
    const kitchen = await openTestKitchen();
    const { figures } = await kitchen.ask('taste.get', { tastingId: await start(kitchen, { fillets: { text: '5', unit: 'kg' } }) });
    expect(figures).toEqual({
      totalGrams: 0, litres: null, percentByWeight: 0, salometerDegrees: 0, waterPhasePercent: 0, sugarPercent: 0, saltFallsOut: false,
      floatShowsDegrees: null, floatMeansPercent: null, equilibrium: null, finished: null, cautions: [],
    });
  });

  it('keeps each addition at once, with who weighed it and when', async () => {
    const { kitchen, contents } = await openWatchedKitchen();
    const id = await start(kitchen);
    const before = (await contents()).chain.entries;
    await add(kitchen, id, 'water', '10', 'kg');
    kitchen.clock.advance(60_000);
    const { tasting, figures } = await kitchen.ask('taste.add', { tastingId: id, ingredientId: 'salt', weighed: { text: '2', unit: 'lb' }, scale: 'alone' }, 'HA');
    expect(tasting.additions).toMatchObject([
      { ingredientId: 'water', name: 'Water', grams: 10_000, entered: { text: '10', unit: 'kg' }, initials: 'MG', struck: false },
      { ingredientId: 'salt', name: 'Salt', grams: 907.18474, entered: { text: '2', unit: 'lb' }, initials: 'HA', atMs: kitchen.clock.nowMs() },
    ]);
    expect(figures.totalGrams).toBeCloseTo(10_907.18474, 9);
    expect(figures.percentByWeight).toBeCloseTo((100 * 907.18474) / 10_907.18474, 9);
    expect(figures.salometerDegrees).toBeCloseTo(figures.percentByWeight / 0.26395, 9);
    expect(figures.waterPhasePercent).toBeCloseTo(figures.percentByWeight, 9);
    expect((await contents()).chain).toMatchObject({ entries: before + 2, intact: true });
  });

  it('is still there when the book is opened again', async () => {
    const { kitchen } = await openWatchedKitchen();
    const id = await start(kitchen);
    const view = await add(kitchen, id, 'water', '4', 'kg');
    await kitchen.close();
    const again = await openTestKitchen({ bookFile: kitchen.file });
    expect(await again.ask('taste.get', { tastingId: id })).toEqual(view);
    await again.close();
  });

  it('takes what went in from the running scale', async () => {
    const kitchen = await openTestKitchen();
    const id = await start(kitchen);
    await add(kitchen, id, 'water', '10', 'kg', 'running');
    await add(kitchen, id, 'salt', '10.8', 'kg', 'running');
    const { tasting, figures } = await add(kitchen, id, 'honey', '11030', 'g', 'running');
    expect(tasting.additions.map(({ grams }) => Math.round(grams))).toEqual([10_000, 800, 230]);
    expect(figures.totalGrams).toBeCloseTo(11_030, 6);
  });

  it('counts what was typed alone in the next running reading', async () => {
    const kitchen = await openTestKitchen();
    const id = await start(kitchen);
    await add(kitchen, id, 'water', '5000');
    const { tasting } = await add(kitchen, id, 'salt', '5400', 'g', 'running');
    expect(tasting.additions[1]?.grams).toBeCloseTo(400, 9);
  });

  it('refuses a running reading that is not above the one before, and says what that was', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const id = await start(kitchen);
    await add(kitchen, id, 'water', '5', 'kg', 'running');
    for (const text of ['4.9', '5']) {
      await expectRefused('taste.add', { tastingId: id, ingredientId: 'salt', weighed: { text, unit: 'kg' }, scale: 'running' }, { path: ['weighed'], message: /^The scale showed 5 kg before, so (4\.9|5) kg adds nothing\.$/ });
    }
    await expectRefused('taste.add', { tastingId: id, ingredientId: 'salt', weighed: { text: '11', unit: 'lb' }, scale: 'running' }, { path: ['weighed'], message: /^The scale showed 11\.023 lb before/ });
  });

  it('leaves a struck addition out and lets it be read', async () => {
    const { kitchen, contents } = await openWatchedKitchen();
    const id = await start(kitchen);
    const plain = await add(kitchen, id, 'water', '5', 'kg');
    const slip = await add(kitchen, id, 'salt', '5000');
    const additionId = slip.tasting.additions[1]?.id ?? '';
    const { tasting, figures } = await kitchen.ask('taste.strike', { tastingId: id, additionId });
    expect(tasting.additions[1]).toMatchObject({ struck: true, grams: 5000 });
    expect(figures).toEqual(plain.figures);
    expect(await kitchen.reply('taste.strike', { tastingId: id, additionId })).toMatchObject({ ok: false, error: { code: 'CONFLICT', fields: [{ path: ['additionId'] }] } });
    expect(await kitchen.reply('taste.strike', { tastingId: id, additionId: 'nothing' })).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
    expect((await contents()).chain.intact).toBe(true);
  });

  it('says which weight rests on a running reading that was struck', async () => {
    const kitchen = await openTestKitchen();
    const id = await start(kitchen);
    await add(kitchen, id, 'water', '5', 'kg', 'running');
    const slip = await add(kitchen, id, 'salt', '5.04', 'kg', 'running');
    await add(kitchen, id, 'honey', '5.5', 'kg', 'running');
    const { figures } = await kitchen.ask('taste.strike', { tastingId: id, additionId: slip.tasting.additions[1]?.id ?? '' });
    expect(figures.cautions).toContainEqual(expect.stringMatching(/^Honey was weighed as the difference to a reading that has been struck through/));
  });

  it('estimates the salt of the fish where its weight is known, as a range', async () => {
    const kitchen = await openTestKitchen();
    const id = await start(kitchen, { speciesId: COHO, fillets: { text: '5', unit: 'kg' } });
    await add(kitchen, id, 'water', '6', 'kg');
    const { figures } = await add(kitchen, id, 'salt', '500');
    // 500 g of salt over 6 kg of water and that of the fish, 5 kg of about 72 %: between 4 and 6 %.
    expect(figures.equilibrium?.percent).toBeGreaterThan(4);
    expect(figures.equilibrium?.percent).toBeLessThan(6);
    for (const range of [figures.equilibrium, figures.finished]) {
      expect(range?.low).toBeLessThan(range?.percent ?? 0);
      expect(range?.high).toBeGreaterThan(range?.percent ?? 0);
    }
    expect(figures.finished?.yieldPercent).toBe(80);
    expect(figures.finished?.percent).toBeGreaterThan(figures.equilibrium?.percent ?? 0);
  });
});

describe('a tub that is no brine yet, or too much of one', () => {
  it.each([
    ['only salt', [['salt', '500']], { percentByWeight: 100, salometerDegrees: 0, waterPhasePercent: 0, litres: null, saltFallsOut: false }, /no water in the tub yet/],
    ['only sugar', [['white-sugar', '500']], { percentByWeight: 0.0025, litres: 0.308, sugarPercent: 99.8 }, null],
    ['only water', [['water', '500']], { percentByWeight: 0, salometerDegrees: 0, sugarPercent: 0 }, /no salt in the tub yet/],
    ['too much salt for the water', [['water', '1000'], ['salt', '500']], { saltFallsOut: true, litres: null, floatShowsDegrees: null, equilibrium: null, finished: null }, /less salt than was weighed in/],
  ] as const)('with %s has figures and a sentence', async (_what, weighed, expected, caution) => {
    const kitchen = await openTestKitchen();
    const id = await start(kitchen, { fillets: { text: '1', unit: 'kg' } });
    for (const [ingredientId, text] of weighed) await add(kitchen, id, ingredientId, text);
    const { figures } = await kitchen.ask('taste.get', { tastingId: id });
    for (const [key, value] of Object.entries(expected)) {
      const figure: unknown = Reflect.get(figures, key);
      if (typeof value === 'number') expect(figure).toBeCloseTo(value, 2);
      else expect(figure).toBe(value);
    }
    if (caution !== null) expect(figures.cautions).toContainEqual(expect.stringMatching(caution));
  });

  it('with sauces only has the sauces’ salt', async () => {
    const kitchen = await openTestKitchen();
    const id = await start(kitchen);
    await add(kitchen, id, 'soy-sauce', '300');
    const { figures } = await add(kitchen, id, 'teriyaki-sauce', '100');
    expect(figures.percentByWeight).toBeCloseTo((3 * 13.9638 + 9.7439) / 4, 9);
    expect(figures.litres).toBeGreaterThan(0.3);
  });
});

describe('a float read in the tub', () => {
  async function sugaryTub(kitchen: TestKitchen): Promise<{ id: string; view: View }> {
    const id = await start(kitchen);
    await add(kitchen, id, 'water', '10', 'kg');
    await add(kitchen, id, 'salt', '800');
    return { id, view: await add(kitchen, id, 'white-sugar', '500') };
  }

  it('means the salt that was weighed, though the sugar lifts it', async () => {
    const kitchen = await openTestKitchen();
    const { id, view } = await sugaryTub(kitchen);
    const { floatShowsDegrees, salometerDegrees, percentByWeight, cautions } = view.figures;
    expect(floatShowsDegrees).toBeGreaterThan(salometerDegrees + 5);
    expect(cautions).toContainEqual(expect.stringMatching(/mislead/));
    // 38 °F, at which the figures stand before a thermometer was in the tub.
    const { figures, tasting } = await kitchen.ask('taste.float', { tastingId: id, shown: String(floatShowsDegrees), brine: { text: '38', unit: 'F' } });
    expect(figures.floatMeansPercent).toBeCloseTo(percentByWeight, 3);
    expect(figures.cautions.join(' ')).not.toMatch(/fits no such brine|was weighed/);
    expect(tasting.floats).toMatchObject([{ shownDegrees: floatShowsDegrees, brineTicks: 30_000, initials: 'MG', afterAdditions: 3 }]);
  });

  it('that is far from the weights is kept, and said', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await sugaryTub(kitchen);
    const { figures } = await kitchen.ask('taste.float', { tastingId: id, shown: '60', brine: { text: '38', unit: 'F' } });
    expect(figures.cautions).toContainEqual(expect.stringMatching(/^The float meant \d+(\.\d)? % salt where 7\.1 % was weighed/));
  });

  it('that no such brine can give is kept without a meaning', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await sugaryTub(kitchen);
    const { figures } = await kitchen.ask('taste.float', { tastingId: id, shown: '1', brine: { text: '38', unit: 'F' } });
    expect(figures.floatMeansPercent).toBeNull();
    expect(figures.cautions).toContainEqual(expect.stringMatching(/fits no such brine/));
  });

  it('stands for the brine in which it was read when more goes in', async () => {
    const kitchen = await openTestKitchen();
    const { id } = await sugaryTub(kitchen);
    const read = await kitchen.ask('taste.float', { tastingId: id, shown: '40', brine: { text: '50', unit: 'F' } });
    const { figures } = await add(kitchen, id, 'honey', '900');
    expect(figures.floatMeansPercent).toBe(read.figures.floatMeansPercent);
    expect(figures.cautions).toContainEqual(expect.stringMatching(/read before the latest addition/));
  });

  it.each([
    ['', '38', 'shown', /^The reading is empty\.$/], ['40,5', '38', 'shown', /has a comma/], ['forty', '38', 'shown', /not a float’s reading/],
    ['-1', '38', 'shown', /^A float can’t show -1 °SAL\.$/], ['101', '38', 'shown', /^A float can’t show 101 °SAL\.$/],
    ['40', '', 'brine', /temperature is empty/], ['40', 'cold', 'brine', /not a temperature/], ['40', '20', 'brine', /can’t be corrected/], ['40', '130', 'brine', /can’t be corrected/],
  ])('of “%s” at “%s” is refused at its field', async (shown, text, field, message) => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const { id } = await sugaryTub(kitchen);
    await expectRefused('taste.float', { tastingId: id, shown, brine: { text, unit: 'F' } }, { path: [field], message });
  });
});

describe('what can’t go into a tub is refused, and the draft stays', () => {
  it.each([['', /is empty/], ['0', /A weight of 0 g can’t be/], ['-20', /-20 g can’t be/], ['1,5', /has a comma/], ['some', /is not a weight/], ['2000000', /more than a tonne/]])('a weight of “%s”', async (text, message) => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const id = await start(kitchen);
    for (const scale of ['alone', 'running'] as const) {
      await expectRefused('taste.add', { tastingId: id, ingredientId: 'salt', weighed: { text, unit: 'g' }, scale }, { path: ['weighed'], message });
    }
    await expectRefused('taste.start', { name: 'x', speciesId: null, fillets: { text, unit: 'g' } }, { path: ['fillets'], message });
  });

  it('an ingredient, a species and a tasting that are not there', async () => {
    const { kitchen, expectRefused } = await openWatchedKitchen();
    const id = await start(kitchen);
    await expectRefused('taste.add', { tastingId: id, ingredientId: 'moon-dust', weighed: { text: '1', unit: 'g' }, scale: 'alone' }, { path: ['ingredientId'], message: /“moon-dust”/, code: 'NOT_FOUND' });
    await expectRefused('taste.start', { name: '', speciesId: 'Salmo monstrosus', fillets: null }, { path: ['speciesId'], message: /Salmo monstrosus/, code: 'NOT_FOUND' });
    expect(await kitchen.reply('taste.get', { tastingId: 'nowhere' })).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });
});
