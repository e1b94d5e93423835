/** What people and loggers get wrong: each is told what, where and how to mend it, and the book stays as it was. */
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import type { Failure } from '../../app/contract/envelope.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { LARGEST_LOG_BYTES } from '../../app/probes/log-bytes.ts';
import { openBookFile } from '../../main/backroom/book/open.ts';
import { TEST_CLOCK, write } from '../support/book-folder.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { batchInput, guest, lotInput, makeBatch, receive } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, pointId, refusal, releaseInput, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

/** Everything that requests can show of the book: lots, batches, readings, packs and the chain over every entry. */
async function contentsOf(kitchen: TestKitchen): Promise<unknown> {
  const { batches } = await kitchen.ask('batch.list', {});
  const { loads } = await kitchen.ask('load.list', {});
  const { places } = await kitchen.ask('office.get', {});
  return {
    lots: await kitchen.ask('fishLot.list', {}), batches, loads,
    series: await Promise.all(loads.map(async ({ id }) => (await kitchen.ask('load.get', { loadId: id })).series)),
    places: await Promise.all(places.map(({ id }) => kitchen.ask('place.get', { placeId: id }))),
    records: await Promise.all(batches.map(async ({ id }) => {
      const { chain, entries, packs } = await kitchen.ask('record.batch', { batchId: id });
      return { chain, entries, packs };
    })),
  };
}

interface Said {
  readonly code: Failure['code'];
  readonly message: string;
  readonly remedy: string;
  /** The field it is shown at. */
  readonly path?: readonly (string | number)[];
}

/** Asks for what must be refused, compares every word of it, and sees that the book is as before. */
async function expectRefused<N extends RequestName>(kitchen: TestKitchen, name: N, input: Input<N>, { code, message, remedy, path }: Said): Promise<void> {
  const before = await contentsOf(kitchen);
  const failure = await refusal(kitchen.reply(name, input));
  expect(failure).toEqual({ code, message, remedy, ...(path === undefined ? {} : { fields: [{ path, message }] }), retryable: false });
  expect(await contentsOf(kitchen)).toEqual(before);
}

const WEIGHTS = [
  { text: '0', unit: 'lb', message: 'A weight of 0 lb can’t be.', remedy: 'It must be more than zero.' },
  { text: '-3', unit: 'lb', message: 'A weight of -3 lb can’t be.', remedy: 'It must be more than zero.' },
  { text: '\u22123', unit: 'lb', message: 'A weight of -3 lb can’t be.', remedy: 'It must be more than zero.' },
  { text: '10000', unit: 'kg', message: '10000 kg is more than a tonne.', remedy: 'Check the unit and the point.' },
  { text: '12,5', unit: 'lb', message: '“12,5” has a comma, which can mean a decimal or a thousand.', remedy: 'Write 12.5 with a point.' },
  { text: '1,250', unit: 'g', message: '“1,250” has a comma, which can mean a decimal or a thousand.', remedy: 'Write 1.250 with a point, or 1250 if it is thousands.' },
] as const;

describe('a weight that can’t be', () => {
  it.each(WEIGHTS)('of “$text” $unit is refused at its field when fish comes in, on the card and in a batch', async ({ text, unit, message, remedy }) => {
    const kitchen = await openTestKitchen();
    const lot = await receive(kitchen);
    await makeBatch(kitchen, [lot.id], { fillets: { text: '2', unit: 'lb' } });
    const said = { code: 'INVALID_INPUT', message, remedy } as const;
    const fillets = { text, unit };
    await expectRefused(kitchen, 'fishLot.receive', lotInput(kitchen, { mass: fillets }), { ...said, path: ['mass'] });
    await expectRefused(kitchen, 'brine.card', { recipeId: 'plain-brine', lotIds: [lot.id], fillets }, { ...said, path: ['fillets'] });
    await expectRefused(kitchen, 'batch.make', batchInput([lot.id], { fillets }), { ...said, path: ['fillets'] });
  });

  it('is refused at its pack, and the good pack beside it is not sealed either', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    await smoke.kitchen.ask('batch.decide', releaseInput(smoke.batchId));
    for (const { text, unit, message, remedy } of WEIGHTS) {
      const input = { batchId: smoke.batchId, weights: [{ text: '1.1', unit: 'lb' as const }, { text, unit }], sealedAtMs: smoke.kitchen.clock.nowMs() };
      await expectRefused(smoke.kitchen, 'pack.seal', input, { code: 'INVALID_INPUT', message, remedy, path: ['weights', '1', 'text'] });
    }
  });
});

describe('fish that can’t be', () => {
  it('of an unknown species is refused with its name', async () => {
    const kitchen = await openTestKitchen();
    await expectRefused(kitchen, 'fishLot.receive', lotInput(kitchen, { speciesId: 'Salmo monstrosus' }), {
      code: 'NOT_FOUND', message: 'There is no fish “Salmo monstrosus” in the list of species.',
      remedy: 'Choose the species from the list; its name goes on the label.', path: ['speciesId'],
    });
  });

  it('of a guest and of a supplier is kept apart on the card and in the batch, whichever is named first', async () => {
    const kitchen = await openTestKitchen();
    const [own, bought] = [await receive(kitchen, { source: guest('Ida Moen') }), await receive(kitchen)];
    const said: Said = {
      code: 'RULE_BLOCKS', message: `Lot ${own.code} is a guest’s own catch and lot ${bought.code} was bought: the two never share a tub.`,
      remedy: 'Make a batch of each, in two tubs: a guest’s catch is not for sale, and it must come back to the guest.', path: ['lotIds'],
    };
    for (const lotIds of [[own.id, bought.id], [bought.id, own.id]]) {
      await expectRefused(kitchen, 'brine.card', { recipeId: 'plain-brine', lotIds, fillets: { text: '9', unit: 'lb' } }, said);
      await expectRefused(kitchen, 'batch.make', batchInput(lotIds), said);
    }
  });
});

type Scaling = Input<'recipe.scale'>;
const SAUCED: Scaling = {
  recipe: {
    name: 'Sauced', salt: { ingredientId: 'salt' },
    ingredients: [{ id: 'water', parts: 10 }, { id: 'salt', parts: 1 }, { id: 'soy-sauce', parts: 2 }, { id: 'brown-sugar', parts: 1 }],
  },
  filletGrams: 1000, ratio: 1, target: { brinePercent: 2 },
};
const DRY: Scaling = {
  recipe: { name: 'Dry', salt: { ingredientId: 'salt' }, ingredients: [{ id: 'salt', parts: 1 }, { id: 'brown-sugar', parts: 1 }] },
  filletGrams: 1000, ratio: 1, target: { brinePercent: 10 },
};
const NO_WATER = { message: 'The recipe has no water.', remedy: 'Add water: a brine needs it to carry the salt into the fish.' };
const TOO_WEAK = { message: /^Without any salt this is already stronger than 2 % salt: the other ingredients alone make a brine of 2\.15 % salt\.$/, remedy: /stronger|less|fewer/ };

describe('a recipe that can’t be mixed', () => {
  it('without water is refused at its ingredients', async () => {
    const kitchen = await openTestKitchen();
    await expectRefused(kitchen, 'recipe.scale', DRY, { code: 'INVALID_INPUT', ...NO_WATER, path: ['recipe', 'ingredients'] });
  });

  it('for a target weaker than its sauces make it is refused at the target, with the strength that they make', async () => {
    const kitchen = await openTestKitchen();
    const failure = await refusal(kitchen.reply('recipe.scale', SAUCED));
    expect(failure).toMatchObject({ code: 'INVALID_INPUT', fields: [{ path: ['target', 'brinePercent'], message: failure.message }] });
    expect(failure.message).toMatch(TOO_WEAK.message);
    expect(failure.remedy).toMatch(TOO_WEAK.remedy);
  });

  it.each([['Dry', DRY], ['Sauced', SAUCED]])('that stands in the book makes no card and no batch, and is named: %s', async (name, { recipe, target }) => {
    const first = await openTestKitchen();
    const lot = await receive(first);
    await first.close();
    const handle = openBookFile(first.file, { clock: TEST_CLOCK });
    write(handle, (book) => book.shelf('recipes').put({
      id: 'bad', name, version: 1, cure: 'wet', ratio: 1, target: { brinePercent: target.brinePercent ?? Number.NaN }, saltIngredientId: 'salt', soakHours: 2, turnHours: [], process: 'either', note: '',
      ingredients: recipe.ingredients.map((one) => ({ ...one, name: one.id })),
    }));
    handle.close();
    const kitchen = await openTestKitchen({ bookFile: first.file });
    for (const asked of [
      () => kitchen.reply('brine.card', { recipeId: 'bad', lotIds: [lot.id], fillets: { text: '9', unit: 'lb' } }),
      () => kitchen.reply('batch.make', batchInput([lot.id], { recipeId: 'bad' })),
    ]) {
      const failure = await refusal(asked());
      expect(failure).toMatchObject({ code: 'RULE_BLOCKS', remedy: expect.stringMatching(/\.$/), fields: [{ path: ['recipeId'], message: failure.message }] });
      expect(failure.message).toContain(`“${name}” can’t be mixed for these fillets. `);
      expect(failure.message).toMatch(name === 'Dry' ? /The recipe has no water\.$/ : /the other ingredients alone make a brine of 2\.15 % salt/);
    }
    expect((await kitchen.ask('batch.list', {})).batches).toEqual([]);
    await kitchen.close();
    expect(readdirSync(first.file.replace(/[^/]*$/, ''))).toEqual(['kitchen.alderbook']);
  });
});

const PNG = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d, 0x49, 0x48, 0x44, 0x52]);
const NOISE = Uint8Array.from({ length: 4000 }, (_value, index) => (index * 167 + 13) % 256);
const AGAIN = 'Export the log from the logger again and choose the new file.';

describe('a file that is no log', () => {
  it.each([
    ['an empty one', 'empty.csv', '', 'empty.csv is empty.', 'Export it again from the logger.'],
    ['one over 32 MB', 'long.csv', new Uint8Array(LARGEST_LOG_BYTES + 1).fill(0x31), 'long.csv is too large: 33 MB; a log may have at most 32 MB.', 'Export a shorter stretch, or fewer channels at once.'],
  ])('is not taken: %s', async (_what, name, content, message, remedy) => {
    const { kitchen } = await openSmokeKitchen();
    const before = await contentsOf(kitchen);
    const refused = await kitchen.takeFile(name, content).then(() => null, (thrown: unknown) => (thrown instanceof Error ? thrown.cause : null));
    expect(refused).toEqual({ code: 'INVALID_INPUT', message, remedy, retryable: false });
    expect(await contentsOf(kitchen)).toEqual(before);
  });

  it.each([
    ['blank lines', 'blank.csv', '\r\n \r\n', '“blank.csv” holds nothing but blank lines.', AGAIN],
    ['a picture', 'smoke.csv', PNG, '“smoke.csv” is a PNG picture, not a text file.', 'Choose the log’s text file instead.'],
    ['bytes that no text has', 'noise.csv', NOISE, '“noise.csv” is not a text file: it holds bytes that no text has.', 'Open it in the program that made it and save it as CSV text.'],
    ['a letter', 'letter.csv', 'Dear chef,\nthe trout was very good.\n', 'No row of “letter.csv” has a time and a temperature.', 'Export the log as CSV with one row for each time.'],
  ])('is refused in the preview and in the import: %s', async (_what, name, content, message, remedy) => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const fileId = await smoke.kitchen.takeFile(name, content);
    await expectRefused(smoke.kitchen, 'readings.preview', { fileId, answers: {}, loadId: load.id }, { code: 'FILE_UNREADABLE', message, remedy });
    const columns = [{ name: 'Probe 1', pointId: pointId(load, 'Thick end') }];
    await expectRefused(smoke.kitchen, 'readings.import', { fileId, answers: {}, columns, coversInToOut: false, loadId: load.id }, { code: 'FILE_UNREADABLE', message, remedy });
  });
});

interface LogCase {
  readonly what: string;
  readonly csv: string;
  readonly asks?: readonly string[];
  readonly answers?: Readonly<Record<string, string>>;
  readonly remarks?: readonly string[];
  readonly refused?: readonly { line: number; reason: string }[];
  readonly kept: number;
}

const at = (minute: number): string => `2026-11-25T15:${String(minute).padStart(2, '0')}Z`;
const LOGS: readonly LogCase[] = [
  {
    what: 'swapped headings', csv: `Probe 1 (F),Time\n${at(1)},62.8\n${at(2)},63\n`, answers: { 'role:1': 'reading', unit: 'F' }, kept: 2,
    asks: ['The headings look swapped: “Probe 1 (F)” stands over times and “Time” over numbers. What does “Time” hold?'],
  },
  {
    what: 'the units of one column mixed', csv: `Time;P1\n${at(1)};62,8 °C\n${at(2)};145 °F\n${at(3)};63 °C\n`, kept: 2,
    refused: [{ line: 3, reason: '“145 °F” is in °F; the rest of “P1” is in °C. Export the log in one unit.' }],
  },
  {
    what: 'as many rows in one unit as in the other', csv: `Time;P1\n${at(1)};62,8 °C\n${at(2)};145 °F\n`, answers: { unit: 'C' }, kept: 1,
    asks: ['The file says both °F and °C for the column “P1”. Which is right? Rows in the other are refused.'],
    refused: [{ line: 3, reason: '“145 °F” is in °F; the rest of “P1” is in °C. Export the log in one unit.' }],
  },
  {
    what: 'times repeated and going backward', csv: `Time,P1 (F)\n${at(31)},145\n${at(31)},146\n${at(20)},147\n${at(32)},148\n`, kept: 4,
    remarks: [
      'Line 4: The time goes backward on line 4. The readings are kept at the times written; if the logger’s clock was set meanwhile, mend the times in the file.',
      'Line 3: The time on line 3 is the same as the reading’s before it. Both readings are kept, and the less favourable counts.',
    ],
  },
  {
    what: 'text in numbers', csv: `Time,P1 (F)\n${at(1)},62\n${at(2)},warm\n${at(3)},1e9\n${at(4)},64\n`, kept: 2,
    refused: [{ line: 3, reason: '“warm” in the column “P1 (F)” is not a number.' }, { line: 4, reason: '“1e9” in the column “P1 (F)” is no temperature.' }],
  },
];

async function readiedLoad(): Promise<{ smoke: SmokeKitchen; loadId: string; thick: string }> {
  const smoke = await openSmokeKitchen();
  const load = await openLoad(smoke);
  return { smoke, loadId: load.id, thick: pointId(load, 'Thick end') };
}

describe('a log with faults', () => {
  it.each(LOGS)('is shown with them and can be taken over all the same: $what', async ({ csv, asks = [], answers = {}, remarks = [], refused = [], kept }) => {
    const { smoke: { kitchen }, loadId, thick } = await readiedLoad();
    const before = await contentsOf(kitchen);
    const fileId = await kitchen.takeFile('smoke.csv', csv);
    const asked = await kitchen.ask('readings.preview', { fileId, answers: {}, loadId });
    expect(asked.questions.map((question) => question.text)).toEqual(asks);
    expect(await contentsOf(kitchen)).toEqual(before);
    const preview = await kitchen.ask('readings.preview', { fileId, answers: { ...answers }, loadId });
    expect(preview).toMatchObject({ questions: [], remarks, refusedRows: refused, refusedCount: refused.length });
    const columns = preview.places.map((place) => ({ name: place.name, pointId: thick }));
    const input = { fileId, columns, coversInToOut: false, loadId };
    if (asks.length > 0) {
      const open = await refusal(kitchen.reply('readings.import', { ...input, answers: {} }));
      expect(open).toMatchObject({ code: 'INVALID_INPUT', message: `smoke.csv can’t be taken over yet: ${asks.join(' ')}`, remedy: 'Answer what is asked, then take it over.' });
      expect(await contentsOf(kitchen)).toEqual(before);
    }
    expect(await kitchen.ask('readings.import', { ...input, answers: { ...answers } })).toEqual({ kept, refused: refused.length, alreadyThere: 0 });
    // The file itself stays, with the rows that could not be read.
    expect(await kitchen.ask('readings.preview', { fileId, answers: { ...answers }, loadId })).toEqual(preview);
  });
});
