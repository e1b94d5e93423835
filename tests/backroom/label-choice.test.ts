import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { guest, LAKE_TROUT } from './fish-and-brine.ts';
import { openSmokeKitchen, refusal, releaseInput, saveKitchen, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';

/** The smallest PNG there is: one dot. */
const PNG = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==', 'base64');

function choice(change: Partial<Input<'label.choose'>> = {}): Input<'label.choose'> {
  return {
    dpi: 203, pouch: null, fishHidden: true, optional: ['form', 'smoked-on', 'best-by', 'phone', 'licence', 'owner-address', 'catch'], mark: { kind: 'none' },
    secondLanguage: null, symbol: 'datamatrix', gtin: '', role: 'maker', ...change,
  };
}

/** A pack of a batch that is released, for sale unless a guest is named. */
async function onePack(lot: Partial<Input<'fishLot.receive'>> = {}): Promise<{ smoke: SmokeKitchen; kitchen: TestKitchen; packIds: string[] }> {
  const smoke = await openSmokeKitchen({}, lot);
  await smokeAndCool(smoke);
  await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
  const { packs } = await smoke.kitchen.ask('pack.seal', { batchId: smoke.batchId, weights: [{ text: '340', unit: 'g' }], sealedAtMs: smoke.kitchen.clock.nowMs() });
  return { smoke, kitchen: smoke.kitchen, packIds: packs.map(({ id }) => id) };
}

async function labelOf(kitchen: TestKitchen, packIds: string[], stockId = '4x3in') {
  const [label] = (await kitchen.ask('label.forPacks', { packIds, stockId })).labels;
  if (label === undefined) throw new Error('no label');
  return label;
}

describe('how labels look', () => {
  it('is the usual until a manager chooses, is kept with the kitchen, and outlives its other settings', async () => {
    const kitchen = await openTestKitchen();
    expect(await kitchen.ask('label.choice', {})).toMatchObject({ isChosen: false, choice: { pouch: null, dpi: 203, gtin: null }, ownStocks: [] });
    await kitchen.ask('label.choose', choice({ pouch: { width: '6', height: '8', unit: 'in' }, gtin: '9520123456788', mark: { kind: 'text', text: ' Tamarack ' } }));
    await saveKitchen(kitchen, { phone: '555-0100' });
    expect(await kitchen.ask('label.choice', {})).toMatchObject({
      isChosen: true, choice: { pouch: { widthMm: 152.4, heightMm: 203.2, unit: 'in' }, gtin: '09520123456788', mark: { kind: 'text', text: 'Tamarack' } },
    });
    expect((await refusal(kitchen.reply('label.choose', choice(), 'HA'))).code).toBe('NOT_ALLOWED');
  });

  it.each([
    ['gtin', { gtin: '9520123456789' }, 'The check digit of trade item number “9520123456789” does not fit.'],
    ['pouch.width', { pouch: { width: '6,5', height: '8', unit: 'in' } }, '“6,5” has a comma.'],
    ['mark.text', { mark: { kind: 'text', text: 'm'.repeat(61) } }, 'A mark of more than 60 letters leaves no room for what the rules ask.'],
    ['mark.text', { mark: { kind: 'text', text: '' } }, 'The mark is empty.'],
  ] satisfies [string, Partial<Input<'label.choose'>>, string][])('names %s in a sentence where it can’t be', async (path, change, message) => {
    const kitchen = await openTestKitchen();
    const error = await refusal(kitchen.reply('label.choose', choice(change)));
    expect(error).toMatchObject({ code: 'INVALID_INPUT', message });
    expect(error.fields?.[0]?.path.join('.')).toBe(path);
  });

  it('may carry a picture of the kitchen’s own, and gives no other file of the book away', async () => {
    const kitchen = await openTestKitchen();
    const fileId = await kitchen.takeFile('mark.png', PNG);
    const { choice: chosen } = await kitchen.ask('label.choose', choice({ mark: { kind: 'picture', fileId } }));
    expect(chosen.mark).toEqual({ kind: 'picture', fileId, widthPixels: 1, heightPixels: 1 });
    expect((await kitchen.ask('label.mark', { fileId })).base64).toBe(PNG.toString('base64'));
    const paper = await kitchen.takeFile('variance.txt', 'A letter.');
    expect((await refusal(kitchen.reply('label.mark', { fileId: paper }))).message).toBe('The file is not a PNG picture.');
    expect((await refusal(kitchen.reply('label.choose', choice({ mark: { kind: 'picture', fileId: 'nowhere' } })))).code).toBe('NOT_FOUND');
  });
});

describe('own stocks', () => {
  it('stand before the others, and are mended without changing what was printed', async () => {
    const { kitchen, packIds, smoke } = await onePack();
    const draft = { name: '', width: '4', height: '4', unit: 'in' as const, sheet: null };
    const { stock } = await kitchen.ask('label.saveStock', { stockId: null, draft });
    expect(stock).toMatchObject({ name: '4 × 4 in', widthMm: 101.6, heightMm: 101.6 });
    expect((await kitchen.ask('stock.list', {})).stocks[0]).toEqual({ id: stock.id, name: '4 × 4 in', widthMm: 101.6, heightMm: 101.6 });
    await kitchen.ask('label.printed', { packIds, stockId: stock.id });
    await kitchen.ask('label.saveStock', { stockId: stock.id, draft: { ...draft, height: '5', name: 'High' } });
    expect((await labelOf(kitchen, packIds, stock.id)).stock).toMatchObject({ name: 'High', heightMm: 127 });
    const { prints } = await kitchen.ask('label.prints', { batchId: smoke.batchId });
    expect(prints).toMatchObject([{ stockName: '4 × 4 in', why: '', printedBy: 'MG' }]);
    expect((await kitchen.ask('label.kept', { printId: prints[0]?.id ?? '' })).label.stock.heightMm).toBe(101.6);
    expect((await refusal(kitchen.reply('label.saveStock', { stockId: null, draft: { ...draft, name: 'high' } }))).message).toBe('There is a label stock called “high” already.');
    expect((await refusal(kitchen.reply('label.saveStock', { stockId: null, draft: { ...draft, name: '4 × 3 IN' } }))).code).toBe('CONFLICT');
  });
});

describe('a chosen label', () => {
  it('has letters for its pouch, its symbol in whole dots, and every element looked at', async () => {
    const { kitchen, packIds } = await onePack();
    const unknown = await labelOf(kitchen, packIds);
    expect(unknown.cautions?.map(({ element, where }) => [element, where])).toEqual([['L03', 'labels']]);
    expect(unknown.blocks.find(({ element }) => element === 'L03')).toMatchObject({ leastLetterMm: 4.7625, measuredBy: 'lower-case-o' });
    await kitchen.ask('label.choose', choice({ pouch: { width: '4', height: '6', unit: 'in' }, dpi: 300, symbol: 'qr' }));
    const label = await labelOf(kitchen, packIds, '3x3in');
    expect(label.blocks.find(({ element }) => element === 'L03')?.leastLetterMm).toBe(3.175);
    expect(label).toMatchObject({ cautions: [], placing: { dpi: 300, footShare: 0.3 }, code: { symbology: 'qrcode', dots: 6 } });
    expect(label.checks?.filter(({ state }) => state === 'missing')).toEqual([]);
    await kitchen.ask('label.choose', choice({ pouch: { width: '3.5', height: '6', unit: 'in' } }));
    expect((await labelOf(kitchen, packIds)).missing).toMatchObject([{ element: 'L03', where: 'labels', why: expect.stringContaining('larger than the side of the pouch') }]);
    expect((await refusal(kitchen.reply('label.printed', { packIds, stockId: '4x3in' }))).code).toBe('RULE_BLOCKS');
  });

  it('carries number, weight, days, lot and pack in its GS1 symbol', async () => {
    const { kitchen, packIds } = await onePack();
    await kitchen.ask('label.choose', choice({ gtin: '0952 0123 4567 88', symbol: 'qr' }));
    const { code, packCode } = await labelOf(kitchen, packIds);
    expect(code).toMatchObject({ symbology: 'gs1datamatrix', content: `(01)09520123456788(3103)000340(13)261125(15)270223(10)${packCode.slice(0, -4)}(21)001` });
  });

  it('goes without what nobody wants, but never without what a rule asks', async () => {
    const { kitchen, packIds } = await onePack();
    await saveKitchen(kitchen, { phone: '555-0100' });
    await kitchen.ask('label.choose', choice({ optional: [], fishHidden: false, role: 'packed-for' }));
    const texts = (await labelOf(kitchen, packIds)).blocks.map(({ text }) => text);
    expect(texts.some((text) => /Phone|Smoked 2|Best if|fillet portion/.test(text))).toBe(false);
    expect(texts).toContainEqual(expect.stringMatching(/^Packed for Test Kitchen, /));
    await kitchen.ask('label.choose', choice({ optional: [], fishHidden: true }));
    expect((await labelOf(kitchen, packIds)).blocks.map(({ element }) => element)).toContain('L02');
    const { address } = (await kitchen.ask('office.get', {})).kitchen;
    await saveKitchen(kitchen, { address: { ...address, region: 'WI' } });
    expect((await labelOf(kitchen, packIds)).blocks.map(({ text }) => text)).toContain('Smoked 25 NOV 2026');
  });

  it('of a guest’s fish says what its record still lacks, and prints all the same', async () => {
    const { kitchen, packIds } = await onePack({ source: guest('Ada Lind'), speciesId: LAKE_TROUT });
    const label = await labelOf(kitchen, packIds, '4x6in');
    expect(label.missing).toEqual([]);
    expect(label.cautions).toMatchObject([{ element: 'L15', where: 'fish-in', why: expect.stringContaining('licence number, permanent address, day of the catch, area of the catch of Ada Lind') }]);
    expect((await kitchen.ask('label.printed', { packIds, stockId: '4x6in' })).labels).toHaveLength(1);
  });

  it('repeats the frozen words in French where that is wanted, and says where no source has them', async () => {
    const { kitchen, packIds } = await onePack();
    await kitchen.ask('label.choose', choice({ secondLanguage: 'fr' }));
    expect((await labelOf(kitchen, packIds)).blocks.map(({ text }) => text)).toContain('Garder congelé jusqu\u2019à utilisation');
  });

  it('is no small pack on a pouch of 12 square inches or more', async () => {
    const { kitchen, packIds } = await onePack();
    await saveKitchen(kitchen, { nutritionGround: 'small-pack' });
    await kitchen.ask('label.choose', choice({ pouch: { width: '4', height: '6', unit: 'in' } }));
    expect((await labelOf(kitchen, packIds, '3x3in')).missing).toMatchObject([{ element: 'L07', why: expect.stringContaining('24 square inches') }]);
  });
});

describe('a reprint', () => {
  it('asks why, and keeps it with the print', async () => {
    const { kitchen, packIds, smoke } = await onePack();
    await kitchen.ask('label.printed', { packIds, stockId: '4x3in' });
    const error = await refusal(kitchen.reply('label.printed', { packIds, stockId: '4x3in', why: ' ' }));
    expect(error).toMatchObject({ code: 'INVALID_INPUT', message: expect.stringMatching(/^The label of pack WF26329A\w-001 was printed before\.$/), fields: [{ path: ['why'] }] });
    kitchen.clock.advance(60_000);
    await kitchen.ask('label.printed', { packIds, stockId: '4x3in', why: 'Torn in the freezer.' }, 'HA');
    expect((await kitchen.ask('label.prints', { batchId: smoke.batchId })).prints.map(({ why, printedBy }) => [why, printedBy])).toEqual([['Torn in the freezer.', 'HA'], ['', 'MG']]);
    const { entries } = await kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.filter(({ kind }) => kind === 'label.printed').at(-1)?.why).toBe('Torn in the freezer.');
  });
});
