import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { Reply } from '../../app/contract/envelope.ts';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { makeBatch, receive } from './fish-and-brine.ts';
import { saveRecipe } from './brine-tub.ts';

type Choices = Partial<Input<'brine.card'>>;

async function bench(): Promise<{ kitchen: TestKitchen; lotId: string; card(choices?: Choices): Promise<Output<'brine.card'>['card']>; reply(choices: Choices): Promise<Reply<Output<'brine.card'>>> }> {
  const kitchen = await openTestKitchen();
  const { id: lotId } = await receive(kitchen);
  const input = (choices: Choices): Input<'brine.card'> => ({ recipeId: 'dill-lemon-brine', lotIds: [lotId], fillets: { text: '9', unit: 'lb' }, ...choices });
  return {
    kitchen, lotId,
    card: async (choices = {}) => (await kitchen.ask('brine.card', input(choices))).card,
    reply: (choices) => kitchen.reply('brine.card', input(choices)),
  };
}

const workingOf = (card: Output<'brine.card'>['card'], figure: string): string => card.workings.find((working) => working.figure === figure)?.text ?? '';

describe('how much brine', () => {
  it('is the recipe’s ratio, or another that was chosen', async () => {
    const { card } = await bench();
    expect((await card()).ratio).toBe(1.5);
    const more = await card({ size: { by: 'ratio', ratio: 2 } });
    expect(more.ratio).toBe(2);
    expect(more.totalGrams).toBeCloseTo(2 * more.filletGrams, -1);
    expect(workingOf(more, 'ratio')).toContain('chosen for this batch');
  });

  it('fills what a tub leaves beside the fish, and says the ratio that gives', async () => {
    const { card } = await bench();
    const filled = await card({ size: { by: 'tub', litres: 20, headroomPercent: 15 } });
    // 17 litres to fill, of which 4.082 kg of fillet take 3.87.
    expect(filled.litres).toBeCloseTo(17 - 4.08233 / 1.055, 1);
    expect(filled.ratio).toBeCloseTo(filled.totalGrams / filled.filletGrams, 2);
    expect(workingOf(filled, 'ratio')).toMatch(/tub of 20 litres with 15 % left empty takes 17 litres.*brine to 1 of fish/);
  });

  it('refuses a tub that the fish does not fit, at its litres', async () => {
    const { reply } = await bench();
    const refused = await reply({ size: { by: 'tub', litres: 4, headroomPercent: 15 } });
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('take 3.9 litres, and the tub has 3.4 litres'), fields: [{ path: ['size', 'litres'] }] } });
  });

  it.each([
    [{ by: 'ratio', ratio: 0 }, ['size', 'ratio']],
    [{ by: 'ratio', ratio: -1 }, ['size', 'ratio']],
    [{ by: 'ratio', ratio: 2000 }, ['size', 'ratio']],
    [{ by: 'tub', litres: 0, headroomPercent: 15 }, ['size', 'litres']],
    [{ by: 'tub', litres: -3, headroomPercent: 15 }, ['size', 'litres']],
    [{ by: 'tub', litres: 20, headroomPercent: 100 }, ['size', 'headroomPercent']],
    [{ by: 'tub', litres: 20, headroomPercent: -5 }, ['size', 'headroomPercent']],
  ] as const)('refuses the size %j', async (size, path) => {
    const { reply } = await bench();
    expect(await reply({ size })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path }] } });
  });
});

describe('the goal of a card', () => {
  it('may be another than the recipe’s, and stands on the card in words', async () => {
    const { card } = await bench();
    const strong = await card({ target: { brineSalometer: 40 } });
    expect(strong.salometerDegrees).toBeCloseTo(40, 0);
    expect(strong).toMatchObject({ target: '40 °SAL', goal: { brineSalometer: 40 } });
    expect(workingOf(strong, 'target')).toContain('in place of the recipe’s');
  });

  it('takes a yield that was typed for that of this batch', async () => {
    const { card } = await bench();
    const target = { finishedWaterPhasePercent: 3.5, yieldPercent: 80 };
    const [usual, drier] = [await card({ target }), await card({ target, yieldPercent: 70 })];
    expect(drier.finishedEstimate.yieldPercent).toBe(70);
    expect(drier.percentByWeight).toBeLessThan(usual.percentByWeight);
    expect(drier.finishedEstimate.percent).toBeCloseTo(3.5, 1);
  });

  it.each([
    [{ brinePercent: 30 }, ['target', 'brinePercent']],
    [{ brinePercent: -1 }, ['target', 'brinePercent']],
    [{ fishEquilibriumWaterPhasePercent: 60 }, ['target', 'fishEquilibriumWaterPhasePercent']],
    [{ finishedWaterPhasePercent: 3.5, yieldPercent: 0 }, ['target', 'yieldPercent']],
    [{ finishedWaterPhasePercent: 3.5, yieldPercent: 120 }, ['target', 'yieldPercent']],
    [{ finishedWaterPhasePercent: 3.5, yieldPercent: 15 }, ['target', 'yieldPercent']],
    [{ curePerFishPercent: 4 }, ['target', 'curePerFishPercent']],
  ] as const)('refuses %j with a sentence at its field', async (target, path) => {
    const { reply } = await bench();
    expect(await reply({ target })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringMatching(/\w.*\.$/), fields: [{ path }] } });
  });
});

describe('the thickest and the thinnest piece', () => {
  it('turn the estimate into one of the thickest piece after the planned soak', async () => {
    const { card } = await bench();
    const [all, thin, thick] = [await card(), await card({ thickestMm: 8, skin: 'off' }), await card({ thickestMm: 40, skin: 'off' })];
    expect(thick.finishedEstimate.percent).toBeLessThan(thin.finishedEstimate.percent);
    expect(thin.finishedEstimate.percent).toBeLessThan(all.finishedEstimate.percent);
    expect(workingOf(thick, 'finishedEstimate')).toContain('thickest piece, 40 mm, skin off, after 12 h');
  });

  it('are warned of where they are of two sizes', async () => {
    const { card } = await bench();
    expect((await card({ thickestMm: 30, thinnestMm: 18 })).cautions.join(' ')).not.toContain('Grade the fish');
    expect((await card({ thickestMm: 30, thinnestMm: 17.9 })).cautions.join(' ')).toContain('under 60 % of the thickest');
  });

  it.each([[0, undefined, 'thickestMm'], [-4, undefined, 'thickestMm'], [300, undefined, 'thickestMm'], [25, 0, 'thinnestMm'], [25, 30, 'thinnestMm']])('are refused at %s and %s mm', async (thickestMm, thinnestMm, field) => {
    const { reply } = await bench();
    const refused = await reply({ thickestMm, ...(thinnestMm === undefined ? {} : { thinnestMm }) });
    expect(refused).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: [field] }] } });
  });

  it('refuse a batch too, and nothing is kept', async () => {
    const { kitchen, lotId } = await bench();
    const refused = await kitchen.reply('batch.make', { recipeId: 'plain-brine', lotIds: [lotId], fillets: { text: '9', unit: 'lb' }, thickestMm: 300, skin: 'on', process: 'hot', pack: 'vacuum', store: 'frozen' });
    expect(refused).toMatchObject({ ok: false, error: { fields: [{ path: ['thickestMm'] }] } });
    expect((await kitchen.ask('batch.list', {})).batches).toEqual([]);
  });
});

describe('aiming at the low end', () => {
  const target = { finishedWaterPhasePercent: 3.5, yieldPercent: 80 };

  it.each([{ by: 'recipe' }, { by: 'ratio', ratio: 2 }, { by: 'tub', litres: 20, headroomPercent: 15 }] as const)('makes the low end of the thickest piece the goal, sized %j', async (size) => {
    const { card } = await bench();
    const aimed = await card({ target, aimLowEnd: true, thickestMm: 20, skin: 'off', size });
    expect(aimed.finishedEstimate.low).toBeGreaterThanOrEqual(3.5 - 1e-6);
    expect(aimed.finishedEstimate.low).toBeLessThan(3.52);
    expect(aimed.target).toContain('met by the low end of the thickest piece');
    if (size.by === 'tub') expect(aimed.litres).toBeCloseTo(17 - 4.08233 / 1.055, 1);
  });

  it('needs the thickness, a finished goal, and one that is within reach', async () => {
    const { reply } = await bench();
    expect(await reply({ target, aimLowEnd: true })).toMatchObject({ ok: false, error: { fields: [{ path: ['thickestMm'] }] } });
    expect(await reply({ aimLowEnd: true, thickestMm: 20 })).toMatchObject({ ok: false, error: { fields: [{ path: ['aimLowEnd'] }] } });
    const far = await reply({ target: { ...target, finishedWaterPhasePercent: 6 }, aimLowEnd: true, thickestMm: 40, skin: 'on' });
    expect(far).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('out of reach for the thickest piece'), remedy: expect.stringContaining('take the skin off') } });
  });
});

describe('salt by the cup', () => {
  it('is warned of by its factor until a crystal is chosen, and then measured with its range', async () => {
    const { card } = await bench();
    const unchosen = await card();
    expect(unchosen.cautions.join(' ')).toMatch(/2\.6 times as much: weigh it/);
    expect(unchosen.lines.find((line) => line.ingredientId === 'salt')).toMatchObject({ household: '' });
    const flake = await card({ saltFormId: 'light-flake' });
    expect(flake.cautions.join(' ')).not.toContain('times as much');
    expect(flake.lines.find((line) => line.ingredientId === 'salt')).toMatchObject({ household: expect.stringContaining('cup'), remark: expect.stringMatching(/may weigh \d+ to \d+ g/) });
  });

  it('refuses a crystal that is not known', async () => {
    const { reply } = await bench();
    expect(await reply({ saltFormId: 'moon' })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['saltFormId'] }] } });
  });
});

describe('a dry cure', () => {
  it('is weighed to the fish, without litres, float or freezing', async () => {
    const { kitchen, card } = await bench();
    const recipeId = await saveRecipe(kitchen);
    const dry = await card({ recipeId });
    expect(dry).toMatchObject({ cure: 'dry', litres: 0, ratio: 0, firstSolidTicks: null, target: '4 % of cure over the fish' });
    expect(dry.totalGrams).toBeCloseTo(0.04 * dry.filletGrams, -1);
    expect(dry.curePerFishPercent).toBeCloseTo(4, 1);
    expect(dry.lines.map((line) => line.ingredientId)).toEqual(['salt', 'brown-sugar']);
    expect(dry.cautions.join(' ')).toContain('everything retained');
    const figures = dry.workings.map((working) => working.figure);
    expect(figures).toEqual(expect.arrayContaining(['line.salt', 'line.brown-sugar', 'curePerFishPercent', 'totalGrams', 'finishedEstimate', 'soakHours', 'turnHours']));
  });

  it('reaches the salt in the finished fish that is asked of it', async () => {
    const { kitchen, card } = await bench();
    const recipeId = await saveRecipe(kitchen);
    const dry = await card({ recipeId, target: { finishedWaterPhasePercent: 3.5, yieldPercent: 80 } });
    expect(dry.finishedEstimate.percent).toBeCloseTo(3.5, 1);
    expect(dry.finishedEstimate.low).toBeLessThan(dry.finishedEstimate.percent);
  });

  it('refuses a strength of brine, a size, a low end, and a yield that can’t be', async () => {
    const { kitchen, reply } = await bench();
    const recipeId = await saveRecipe(kitchen);
    expect(await reply({ recipeId, target: { brinePercent: 10 } })).toMatchObject({ ok: false, error: { fields: [{ path: ['target', 'brinePercent'] }] } });
    expect(await reply({ recipeId, size: { by: 'ratio', ratio: 2 } })).toMatchObject({ ok: false, error: { fields: [{ path: ['size'] }] } });
    expect(await reply({ recipeId, aimLowEnd: true, thickestMm: 20 })).toMatchObject({ ok: false, error: { fields: [{ path: ['aimLowEnd'] }] } });
    expect(await reply({ recipeId, yieldPercent: 0 })).toMatchObject({ ok: false, error: { fields: [{ path: ['yieldPercent'] }] } });
    expect(await reply({ recipeId, target: { curePerFishPercent: -2 } })).toMatchObject({ ok: false, error: { fields: [{ path: ['target', 'curePerFishPercent'] }] } });
  });

  it('makes a batch that is judged as dry salted, and soaks without a brine temperature', async () => {
    const { kitchen, lotId } = await bench();
    const recipeId = await saveRecipe(kitchen);
    const batch = await makeBatch(kitchen, [lotId], { recipeId });
    await kitchen.ask('soak.log', { batchId: batch.id, what: 'start', atMs: kitchen.clock.nowMs(), brine: null, room: null });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId: batch.id });
    expect(deciding.checks.find((check) => check.checkId === 'BRINE-START-60')?.verdict ?? 'does-not-apply').toBe('does-not-apply');
  });
});
