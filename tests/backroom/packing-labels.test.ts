import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import { canonicalJson, sha256Hex } from '../../main/backroom/book/canonical.ts';
import { guest, HOUR_MS, LAKE_TROUT } from './fish-and-brine.ts';
import { openSmokeKitchen, refusal, releaseInput, saveKitchen, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

type Label = Output<'label.forPacks'>['labels'][number];

interface Packed {
  readonly smoke: SmokeKitchen;
  readonly packIds: string[];
}

/** A batch smoked, released and sealed in packs of 1.21 and 0.98 lb. */
async function packed(batch: Partial<Input<'batch.make'>> = {}, lot: Partial<Input<'fishLot.receive'>> = {}): Promise<Packed> {
  const smoke = await openSmokeKitchen(batch, lot);
  await smokeAndCool(smoke);
  await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
  const weights = [{ text: '1.21', unit: 'lb' as const }, { text: '0.98', unit: 'lb' as const }];
  const { packs } = await smoke.kitchen.ask('pack.seal', { batchId: smoke.batchId, weights, sealedAtMs: smoke.kitchen.clock.nowMs() });
  return { smoke, packIds: packs.map((pack) => pack.id) };
}

async function labels({ smoke, packIds }: Packed): Promise<Label[]> {
  return (await smoke.kitchen.ask('label.forPacks', { packIds, stockId: '4x3in' })).labels;
}

const textsOf = (label: Label | undefined) => label?.blocks.map((block) => block.text) ?? [];

describe('the label of a pack for sale', () => {
  it('names fish, weight, dates, lot, keeping and kitchen, and one digest for its content', async () => {
    const [label] = await labels(await packed());
    expect(textsOf(label)).toEqual(expect.arrayContaining([
      'SMOKED LAKE WHITEFISH', 'NET WT 1.21 lb (548 g)', 'Smoked 25 NOV 2026', 'Packed 25 NOV 2026', 'Best if used by 23 FEB 2027',
      'Ingredients: Lake Whitefish, salt.', 'Contains: Lake Whitefish.',
    ]));
    expect(textsOf(label).some((text) => text.startsWith('KEEP FROZEN AT 0°F (-18°C).'))).toBe(true);
    expect(textsOf(label).some((text) => text.startsWith('Use by'))).toBe(false);
    expect(label).toMatchObject({ custom: false, code: { symbology: 'datamatrix', content: label?.packCode }, stock: { id: '4x3in', widthMm: 101.6 } });
    if (label === undefined) throw new Error('no label');
    const { digest, ...content } = label;
    expect(digest).toBe(sha256Hex(canonicalJson(content)));
  });

  it('lists ingredients heaviest first with the parts of bought ones, and every allergen; the water is dried off', async () => {
    const smoke = await openSmokeKitchen({}, {}, { demo: true });
    await smokeAndCool(smoke);
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
    const { packs } = await smoke.kitchen.ask('pack.seal', { batchId: smoke.batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: smoke.kitchen.clock.nowMs() });
    const plain = await labels({ smoke, packIds: packs.map((pack) => pack.id) });
    expect(plain.at(0)?.missing).toEqual([]);

    const house = await openSmokeKitchen({ recipeId: 'narrows-house-brine' }, {}, { demo: true });
    await smokeAndCool(house);
    await house.kitchen.ask('batch.decide', releaseInput(house.batchId));
    const sealed = await house.kitchen.ask('pack.seal', { batchId: house.batchId, weights: [{ text: '1', unit: 'lb' }], sealedAtMs: house.kitchen.clock.nowMs() });
    const [label] = await labels({ smoke: house, packIds: sealed.packs.map((pack) => pack.id) });
    const list = textsOf(label).find((text) => text.startsWith('Ingredients:')) ?? '';
    expect(list).toMatch(/^Ingredients: Lake Whitefish, /);
    expect(list).toContain('soy sauce (');
    expect(list).not.toMatch(/(^|, )water(,|\.)/);
    const { card } = (await house.kitchen.ask('batch.get', { batchId: house.batchId })).batch;
    const grams = (name: string) => card.lines.find((line) => line.ingredientId === name)?.grams ?? 0;
    expect(grams('brown-sugar') > grams('soy-sauce')).toBe(list.indexOf('brown sugar') < list.indexOf('soy sauce'));
    expect(textsOf(label).find((text) => text.startsWith('Contains:'))).toMatch(/Lake Whitefish.*(wheat.*soybeans|soybeans.*wheat)/);
  });

  it('that lacks something is shown, but not marked as printed: what is missing, and where to enter it', async () => {
    const batch = await packed();
    const { kitchen } = batch.smoke;
    const { address } = (await kitchen.ask('office.get', {})).kitchen;
    await saveKitchen(batch.smoke.kitchen, { address: { ...address, street: '' }, nutritionGround: undefined });
    expect((await labels(batch)).at(0)?.missing.map((gap) => gap.element)).toEqual(['L06', 'L07']);
    const error = await refusal(kitchen.reply('label.printed', { packIds: batch.packIds, stockId: '4x3in' }));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(/^The label of pack WF26329A\w-001 is not complete: The street is empty/) });
    expect(error.message).toContain('Enter it in the office, under kitchen.');
    expect(error.remedy).toContain('Enter the ground in the office, with the kitchen’s name and address.');
    expect((await kitchen.ask('pack.list', { batchId: batch.smoke.batchId })).packs.map((pack) => pack.printedCount)).toEqual([0, 0]);
  });

  it('follows the State of the kitchen', async () => {
    const batch = await packed();
    const { address } = (await batch.smoke.kitchen.ask('office.get', {})).kitchen;
    await saveKitchen(batch.smoke.kitchen, { address: { ...address, region: 'Wisconsin' } });
    expect(textsOf((await labels(batch)).at(0))).toContain('PERISHABLE — KEEP FROZEN PRIOR TO USE');
  });
});

describe('the label of a guest’s own catch', () => {
  it('is not for sale and names its owner, water and days of the catch', async () => {
    const caughtAtMs = Date.UTC(2026, 10, 24, 16);
    const source = { ...guest('Ada Lind', 'MN-1234'), caughtArea: 'Narrows Reef' } as Input<'fishLot.receive'>['source'];
    const [label] = await labels(await packed({}, { source, speciesId: LAKE_TROUT, caughtAtMs }));
    expect(label).toMatchObject({ custom: true, missing: [] });
    expect(textsOf(label)).toEqual(expect.arrayContaining([
      'SPORT-CAUGHT - NOT FOR SALE', 'Owner: Ada Lind', 'Licence: MN-1234', 'Caught: 24 NOV 2026', 'Area: Narrows Reef', 'Smoked Lake Trout',
    ]));
  });

  it('may go without the guest’s licence, which the pack doesn’t need', async () => {
    const batch = await packed({}, { source: guest('Ada Lind') });
    expect((await labels(batch)).at(0)?.missing).toEqual([]);
    expect((await batch.smoke.kitchen.ask('label.printed', { packIds: batch.packIds, stockId: '4x3in' })).labels).toHaveLength(2);
  });
});

describe('printing', () => {
  it('keeps what was printed word for word, counts reprints, and tells the leave gate', async () => {
    const batch = await packed();
    const { kitchen, batchId } = batch.smoke;
    expect((await kitchen.ask('batch.verdict', { batchId })).gates.at(3)?.blocking.map((one) => one.checkId)).toContain('label');
    const first = await kitchen.ask('label.printed', { packIds: batch.packIds, stockId: '4x3in' }, 'HA');
    expect(first.labels).toEqual(await labels(batch));
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('label.printed', { packIds: batch.packIds.slice(0, 1), stockId: '4x2in', why: 'torn' });
    expect((await kitchen.ask('pack.list', { batchId })).packs.map((pack) => pack.printedCount)).toEqual([2, 1]);
    const { labels: kept, entries } = await kitchen.ask('record.batch', { batchId });
    expect(kept.map((label) => label.stock.id)).toEqual(['4x2in', '4x3in']);
    expect(entries.filter((entry) => entry.kind === 'label.printed').map((entry) => entry.summary)).toEqual([
      expect.stringMatching(/^Printed the label of pack WF26329A\w-001 on 4 × 3 in\.$/),
      expect.stringMatching(/^Printed the label of pack WF26329A\w-002 on 4 × 3 in\.$/),
      expect.stringMatching(/^Reprinted the label of pack WF26329A\w-001 on 4 × 2 in, time 2\.$/),
    ]);
    expect((await kitchen.ask('batch.verdict', { batchId })).gates.at(3)?.blocking.map((one) => one.checkId)).not.toContain('label');
  });

  it('is stopped by a HOLD, an unknown stock and a pack named twice', async () => {
    const batch = await packed();
    const { kitchen, batchId } = batch.smoke;
    expect((await refusal(kitchen.reply('label.forPacks', { packIds: batch.packIds, stockId: 'A4' }))).message).toBe('There is no label stock “A4”.');
    const [one = ''] = batch.packIds;
    expect((await refusal(kitchen.reply('label.printed', { packIds: [one, one], stockId: '4x3in' }))).code).toBe('INVALID_INPUT');
    await kitchen.ask('batch.decide', releaseInput(batchId, { decision: 'hold', reason: 'A pack has swollen.' }));
    for (const name of ['label.forPacks', 'label.printed'] as const) {
      expect((await refusal(kitchen.reply(name, { packIds: batch.packIds, stockId: '4x3in' }))).message).toContain('is on HOLD');
    }
  });
});
