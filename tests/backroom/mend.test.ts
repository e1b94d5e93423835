import { describe, expect, it } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import { batchOf, saveRecipe, soakingBatch, type Soaking } from './brine-tub.ts';
import { HOUR_MS, LAKE_TROUT, makeBatch, MINUTE_MS, receive, soakInput } from './fish-and-brine.ts';

type Trouble = Input<'brine.mend'>['trouble'];
const TOO_STRONG: Trouble = { kind: 'too-strong', measured: { by: 'percent', percent: '6' } };
const TOO_SALTY: Trouble = { kind: 'too-salty', testedPercent: '6', wantedPercent: '4' };

async function planOf({ kitchen, batchId }: Soaking, trouble: Trouble): Promise<Output<'brine.mend'>['plan']> {
  return (await kitchen.ask('brine.mend', { batchId, trouble })).plan;
}

describe('the plan for a brine that went wrong', () => {
  it('weakens one that is too strong with water, and changes nothing', async () => {
    const soaking = await soakingBatch();
    const before = await batchOf(soaking);
    const plan = await planOf(soaking, TOO_STRONG);
    expect(plan.steps).toEqual([{ text: expect.stringMatching(/^Add \d+ g.* of Water and stir\.$/), ingredientId: 'water', grams: expect.any(Number), hours: null }]);
    expect(plan.before.percentByWeight).toBeCloseTo(6, 6);
    expect(plan.after.waterPhasePercent).toBeCloseTo(before.card.waterPhasePercent, 2);
    expect(plan.after.totalGrams).toBeCloseTo(plan.before.totalGrams + (plan.steps[0]?.grams ?? 0), 6);
    expect(plan.voids.join(' ')).toContain('forecast');
    expect(plan.cautions.join(' ')).toContain('litres: see that the tub holds it');
    expect(await batchOf(soaking)).toEqual(before);
  });

  it('strengthens one that is too weak by the float, freed of its sugar and cold', async () => {
    const soaking = await soakingBatch({}, { start: false });
    const plan = await planOf(soaking, { kind: 'too-weak', measured: { by: 'float', degrees: '15', brine: { text: '38', unit: 'F' } } });
    expect(plan.steps).toEqual([expect.objectContaining({ ingredientId: 'salt', text: expect.stringContaining('until nothing lies at the bottom') })]);
    expect(plan.before.percentByWeight).toBeLessThan(plan.after.percentByWeight);
  });

  it('makes up what was spilled, all of it too', async () => {
    const soaking = await soakingBatch();
    const { card } = await batchOf(soaking);
    const plan = await planOf(soaking, { kind: 'spilled', left: { text: '2', unit: 'kg' } });
    expect(plan.after.totalGrams).toBeCloseTo(card.totalGrams, -1);
    const all = await planOf(soaking, { kind: 'spilled', left: { text: '0', unit: 'kg' } });
    expect(all.steps.map((step) => step.grams)).toEqual(card.lines.map((line) => line.grams));
  });

  it('goes on without what ran out, or with something else in its place', async () => {
    const soaking = await soakingBatch({}, { start: false });
    const swapped = await planOf(soaking, { kind: 'ran-out', ingredientId: 'lemon-juice', there: { text: '0', unit: 'g' }, insteadId: 'cider-vinegar' });
    expect(swapped.steps[0]).toMatchObject({ text: expect.stringMatching(/^Use .* of Cider vinegar for the Lemon juice/), ingredientId: 'cider-vinegar' });
    const smaller = await planOf(soaking, { kind: 'ran-out', ingredientId: 'salt', there: { text: '50', unit: 'g' }, insteadId: null });
    expect(smaller.steps.map((step) => step.text).join(' ')).toContain('less of Water than the card says');
  });

  it('tells a new allergen that comes in place of what ran out', async () => {
    const plan = await planOf(await soakingBatch({}, { start: false }), { kind: 'ran-out', ingredientId: 'lemon-juice', there: { text: '0', unit: 'g' }, insteadId: 'soy-sauce' });
    expect(plan.cautions.join(' ')).toMatch(/New in this brine: .*(soybeans|wheat)/);
  });

  it('reckons cups of the wrong crystal, and names the factor', async () => {
    const plan = await planOf(await soakingBatch({}, { start: false }), { kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'light-flake', usedFormId: 'fine-table' });
    expect(plan.before.percentByWeight).toBeGreaterThan(plan.after.percentByWeight * 1.5);
    expect(plan.cautions.join(' ')).toContain('factor of two');
  });

  it('freshens fish that is too salty, for hours that are an estimate', async () => {
    const plan = await planOf(await soakingBatch({ thickestMm: 12, skin: 'off' }), TOO_SALTY);
    expect(plan.steps).toEqual([expect.objectContaining({ ingredientId: null, hours: expect.any(Number), text: expect.stringContaining('plain cold water') })]);
    expect(plan.cautions.join(' ')).toContain('estimate');
  });

  it.each<[Trouble, (string | number)[]]>([
    [{ kind: 'too-strong', measured: { by: 'percent', percent: '' } }, ['trouble', 'measured', 'percent']],
    [{ kind: 'too-strong', measured: { by: 'percent', percent: '6,5' } }, ['trouble', 'measured', 'percent']],
    [{ kind: 'too-strong', measured: { by: 'percent', percent: 'x' } }, ['trouble', 'measured', 'percent']],
    [{ kind: 'too-strong', measured: { by: 'percent', percent: '-1' } }, ['trouble', 'measured', 'percent']],
    [{ kind: 'too-strong', measured: { by: 'percent', percent: '2' } }, ['trouble', 'measured']],
    [{ kind: 'too-weak', measured: { by: 'float', degrees: '101', brine: { text: '38', unit: 'F' } } }, ['trouble', 'measured', 'degrees']],
    [{ kind: 'too-weak', measured: { by: 'float', degrees: '20', brine: { text: 'cold', unit: 'F' } } }, ['trouble', 'measured', 'brine']],
    [{ kind: 'spilled', left: { text: '-2', unit: 'kg' } }, ['trouble', 'left']],
    [{ kind: 'spilled', left: { text: '900', unit: 'kg' } }, ['trouble', 'left']],
    [{ kind: 'ran-out', ingredientId: 'honey', there: { text: '0', unit: 'g' }, insteadId: null }, ['trouble', 'ingredientId']],
    [{ kind: 'ran-out', ingredientId: 'salt', there: { text: '0', unit: 'g' }, insteadId: 'moonstone' }, ['trouble', 'insteadId']],
    [{ kind: 'ran-out', ingredientId: 'salt', there: { text: '0', unit: 'g' }, insteadId: 'white-sugar' }, ['trouble', 'insteadId']],
    [{ kind: 'wrong-salt', ingredientId: 'salt', meantFormId: 'fine-table', usedFormId: 'fine-table' }, ['trouble', 'usedFormId']],
    [{ kind: 'too-salty', testedPercent: '3', wantedPercent: '4' }, ['trouble', 'wantedPercent']],
    [{ kind: 'too-salty', testedPercent: '0', wantedPercent: '0' }, ['trouble', 'testedPercent']],
  ])('refuses %j with a sentence at its field', async (trouble, path) => {
    const { kitchen, batchId } = await soakingBatch();
    expect(await kitchen.reply('brine.mend', { batchId, trouble })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringMatching(/\w.*\.$/), fields: [{ path }] } });
  });

  it('puts no nitrite in the place of salt where the recipe might have none', async () => {
    const { kitchen } = await soakingBatch();
    const lot = await receive(kitchen, { speciesId: LAKE_TROUT });
    const { id } = await makeBatch(kitchen, [lot.id]);
    const refused = await kitchen.reply('brine.mend', { batchId: id, trouble: { kind: 'ran-out', ingredientId: 'salt', there: { text: '0', unit: 'g' }, insteadId: 'curing-salt' } });
    expect(refused).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', fields: [{ path: ['trouble', 'insteadId'] }] } });
  });
});

describe('a brine that was mended', () => {
  it('gives the batch the card of what is in the tub now, and keeps what was', async () => {
    const soaking = await soakingBatch();
    const { kitchen, batchId } = soaking;
    const before = await batchOf(soaking);
    kitchen.clock.advance(HOUR_MS);
    const plan = await planOf(soaking, TOO_STRONG);
    const { batch, mend } = await kitchen.ask('brine.mended', { batchId, trouble: TOO_STRONG, atMs: kitchen.clock.nowMs() }, 'HA');
    expect(mend).toMatchObject({ kind: 'too-strong', initials: 'HA', steps: plan.steps, before: plan.before, after: plan.after, voids: plan.voids });
    expect(batch.mends).toEqual([mend]);
    expect(batch.card).toMatchObject({ recipeId: before.card.recipeId, recipeVersion: before.card.recipeVersion, target: before.card.target });
    expect(batch.card.totalGrams).toBeCloseTo(plan.after.totalGrams, 6);
    expect(batch.card.totalGrams).toBeCloseTo(batch.card.lines.reduce((sum, line) => sum + line.grams, 0), 6);
    expect(batch.card.waterPhasePercent).toBeCloseTo(plan.after.waterPhasePercent, 6);
    for (const working of batch.card.workings) expect(working.text).toContain('As mended at 09:00 on 25 Nov 2026');
    expect(batch.card.workings.map((working) => working.figure)).toEqual(expect.arrayContaining(before.card.workings.map((working) => working.figure)));
    expect(await batchOf(soaking)).toEqual(batch);
    const { entries, chain } = await kitchen.ask('record.batch', { batchId });
    expect(entries.at(-1)).toMatchObject({ kind: 'brine.mended', person: 'HA', summary: expect.stringMatching(/Mended the brine of WF 329 at 09:00 on 25 Nov 2026 \(too strong\): Add/) });
    expect(chain.intact).toBe(true);
  });

  it('starts the forecast anew', async () => {
    const soaking = await soakingBatch();
    const { kitchen, batchId } = soaking;
    kitchen.clock.advance(2 * HOUR_MS);
    await kitchen.ask('brine.mended', { batchId, trouble: TOO_STRONG, atMs: kitchen.clock.nowMs() });
    const { forecast } = await kitchen.ask('soak.forecast', { batchId });
    expect(forecast.soakHours).toBe(10);
    expect(forecast.notes.join(' ')).toContain('hours count from 10:00');
  });

  it('is measured against the brine as it is now, not as it was before the mend', async () => {
    const soaking = await soakingBatch();
    const { kitchen, batchId } = soaking;
    const atMs = kitchen.clock.nowMs();
    await kitchen.ask('brine.mended', { batchId, trouble: TOO_STRONG, atMs });
    const again = await kitchen.reply('brine.mended', { batchId, trouble: { kind: 'too-strong', measured: { by: 'percent', percent: '3' } }, atMs });
    expect(again).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', message: expect.stringContaining('is not stronger than') } });
    expect((await batchOf(soaking)).mends).toHaveLength(1);
  });

  it('can’t be before the batch was made, nor still to come, nor before the mend before it', async () => {
    const { kitchen, batchId, startMs } = await soakingBatch();
    for (const atMs of [startMs - 2 * HOUR_MS, startMs + HOUR_MS]) {
      expect(await kitchen.reply('brine.mended', { batchId, trouble: TOO_STRONG, atMs })).toMatchObject({ ok: false, error: { code: 'INVALID_INPUT', fields: [{ path: ['atMs'] }] } });
    }
    kitchen.clock.advance(HOUR_MS);
    await kitchen.ask('brine.mended', { batchId, trouble: TOO_STRONG, atMs: startMs + 30 * MINUTE_MS });
    expect(await kitchen.reply('brine.mended', { batchId, trouble: TOO_STRONG, atMs: startMs + 10 * MINUTE_MS })).toMatchObject({ ok: false, error: { fields: [{ path: ['atMs'] }] } });
  });

  it('can’t be after the soak ended, but for fish that came out too salty', async () => {
    const soaking = await soakingBatch({ thickestMm: 12, skin: 'off' });
    const { kitchen, batchId, startMs } = soaking;
    kitchen.clock.advance(3 * HOUR_MS);
    await kitchen.ask('soak.log', soakInput(batchId, 'end', startMs + 2 * HOUR_MS));
    const late = { batchId, atMs: kitchen.clock.nowMs() };
    expect(await kitchen.reply('brine.mended', { ...late, trouble: TOO_STRONG })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('ended at 10:00') } });
    const { card } = await batchOf(soaking);
    const { batch, mend } = await kitchen.ask('brine.mended', { ...late, trouble: TOO_SALTY });
    expect(mend.kind).toBe('too-salty');
    expect(batch.card.lines).toEqual(card.lines);
    expect(batch.card.cautions[0]).toContain('freshened in plain water at 11:00');
  });

  it('is no freshening of fish that is not in the brine yet', async () => {
    const { kitchen, batchId } = await soakingBatch({}, { start: false });
    expect(await kitchen.reply('brine.mend', { batchId, trouble: TOO_SALTY })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('has not started') } });
  });

  it('is not recorded where there is nothing to do', async () => {
    const soaking = await soakingBatch({}, { start: false });
    const { kitchen, batchId } = soaking;
    const trouble: Trouble = { kind: 'ran-out', ingredientId: 'lemon-juice', there: { text: '5', unit: 'kg' }, insteadId: null };
    expect((await planOf(soaking, trouble)).steps[0]?.text).toContain('Do nothing.');
    expect(await kitchen.reply('brine.mended', { batchId, trouble, atMs: kitchen.clock.nowMs() })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('nothing to mend') } });
    expect((await batchOf(soaking)).mends).toEqual([]);
  });

  it('is no brine at all in a dry cure, whose fish can be freshened', async () => {
    const { kitchen } = await soakingBatch();
    const recipeId = await saveRecipe(kitchen);
    const lot = await receive(kitchen);
    const { id: batchId } = await makeBatch(kitchen, [lot.id], { recipeId, thickestMm: 12, skin: 'off' });
    await kitchen.ask('soak.log', soakInput(batchId, 'start', kitchen.clock.nowMs()));
    expect(await kitchen.reply('brine.mend', { batchId, trouble: TOO_STRONG })).toMatchObject({ ok: false, error: { code: 'RULE_BLOCKS', message: expect.stringContaining('dry cured') } });
    expect((await kitchen.ask('brine.mend', { batchId, trouble: TOO_SALTY })).plan.steps[0]?.text).toContain('plain cold water');
  });
});
