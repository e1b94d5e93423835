import { describe, expect, it } from 'vitest';
import { contract } from '../../app/contract/contract.ts';
import type { Input } from '../../app/contract/contract.ts';
import { REQUEST_NAMES } from '../../app/contract/names.ts';
import { MINUTE_MS } from './fish-and-brine.ts';
import { openLoad, openSmokeKitchen, refusal, releaseInput, smokeAndCool, type SmokeKitchen } from './smoke-kitchen.ts';

const draft = (smoke: SmokeKitchen, more: Partial<Input<'corrective.open'>> = {}): Input<'corrective.open'> => ({
  batchId: smoke.batchId, checkId: 'HOT-145-30', cause: 'The fire went low while the wood was wet.', quantity: 'all 9 lb', keptWhere: 'walk-in, left shelf',
  evaluatedBy: 'Cal Hurst', evaluation: 'Cores stayed under 141 °F.', disposition: 'destroy', fix: 'Dry wood kept under a roof.', ...more,
});

async function missedSmoke(process: 'hot' | 'cold' = 'hot'): Promise<SmokeKitchen> {
  const smoke = await openSmokeKitchen({ process });
  await smokeAndCool(smoke, { topF: 141 });
  return smoke;
}

describe('a corrective action', () => {
  it('keeps cause, quantity, place, evaluation, disposition and fix, and stands in the record', async () => {
    const smoke = await missedSmoke();
    const { corrective } = await smoke.kitchen.ask('corrective.open', draft(smoke), 'CH');
    expect(corrective).toMatchObject({ ...draft(smoke), openedBy: 'CH', openedAtMs: smoke.kitchen.clock.nowMs(), verified: null });
    expect((await smoke.kitchen.ask('corrective.list', { batchId: smoke.batchId })).correctives).toEqual([corrective]);
    const entry = (await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId })).entries.find((one) => one.kind === 'corrective.open');
    expect(entry?.summary).toMatch(/^Corrective action 1 of WF26329A\w \(Core at 145 °F .*\): all 9 lb; destroy it; evaluated by Cal Hurst\.$/);
    expect(entry?.why).toBe('The fire went low while the wood was wet.');
  });

  it('changes no verdict and releases nothing', async () => {
    const smoke = await missedSmoke();
    const before = (await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).deciding;
    await smoke.kitchen.ask('corrective.open', draft(smoke, { disposition: 'rework' }));
    expect((await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId })).deciding).toEqual(before);
    expect((await refusal(smoke.kitchen.reply('batch.decide', releaseInput(smoke.batchId)))).code).toBe('RULE_BLOCKS');
  });

  it('is of a limit the batch is judged by and has not met', async () => {
    const smoke = await openSmokeKitchen();
    await smokeAndCool(smoke);
    expect(await refusal(smoke.kitchen.reply('corrective.open', draft(smoke)))).toMatchObject({ code: 'INVALID_INPUT', message: expect.stringContaining('the record meets it, so there is nothing to correct'), fields: [{ path: ['checkId'] }] });
    expect((await refusal(smoke.kitchen.reply('corrective.open', draft(smoke, { checkId: 'HOT-999' })))).message).toMatch(/^HOT-999 is no limit that WF26329A\w is judged by\.$/);
    expect((await smoke.kitchen.ask('corrective.open', draft(smoke, { checkId: '', cause: 'A tray was dropped.' }))).corrective.checkId).toBe('');
  });

  it('is a chef’s or manager’s, with a cause', async () => {
    const smoke = await missedSmoke();
    expect((await refusal(smoke.kitchen.reply('corrective.open', draft(smoke), 'HA'))).code).toBe('NOT_ALLOWED');
    expect(await refusal(smoke.kitchen.reply('corrective.open', draft(smoke, { cause: '  ' })))).toMatchObject({ code: 'INVALID_INPUT', fields: [{ path: ['cause'] }] });
  });

  it('evaluates no miss of heat or cooling away, and asks for the evaluation of what is only not proven', async () => {
    const missed = await missedSmoke();
    expect(await refusal(missed.kitchen.reply('corrective.open', draft(missed, { disposition: 'release-as-evaluated' })))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('no evaluation makes it meet') });
    const gap = await openSmokeKitchen();
    await smokeAndCool(gap, { leaveOut: (minute) => minute > 140 && minute < 352 });
    expect((await refusal(gap.kitchen.reply('corrective.open', draft(gap, { disposition: 'release-as-evaluated', evaluation: '' })))).message).toBe('The evaluation is empty.');
    expect((await gap.kitchen.ask('corrective.open', draft(gap, { disposition: 'release-as-evaluated' }))).corrective.disposition).toBe('release-as-evaluated');
  });

  it('goes on with a cook only while it goes on', async () => {
    const smoke = await openSmokeKitchen();
    expect((await refusal(smoke.kitchen.reply('corrective.open', draft(smoke, { disposition: 'go-on-cooking' })))).message).toBe('WF 329 is not in the smoker.');
    const load = await openLoad(smoke);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs });
    expect((await smoke.kitchen.ask('corrective.open', draft(smoke, { disposition: 'go-on-cooking' }))).corrective.disposition).toBe('go-on-cooking');
    expect((await refusal(smoke.kitchen.reply('corrective.open', draft(smoke, { disposition: 'return-raw' })))).message).toMatch(/went into the smoker and is not raw\.$/);
    smoke.kitchen.clock.advance(5 * MINUTE_MS);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: smoke.kitchen.clock.nowMs() });
    expect((await refusal(smoke.kitchen.reply('corrective.open', draft(smoke, { disposition: 'go-on-cooking' })))).message).toMatch(/came out of the smoker at .*, so that cook has ended\.$/);
  });

  it('is verified once, by a manager, saying how', async () => {
    const smoke = await missedSmoke();
    const { corrective } = await smoke.kitchen.ask('corrective.open', draft(smoke), 'CH');
    expect((await refusal(smoke.kitchen.reply('corrective.verify', { correctiveId: corrective.id, how: 'Looked.' }, 'CH'))).code).toBe('NOT_ALLOWED');
    const { corrective: verified } = await smoke.kitchen.ask('corrective.verify', { correctiveId: corrective.id, how: 'Two loads since kept 150 °F.' });
    expect(verified.verified).toEqual({ initials: 'MG', atMs: smoke.kitchen.clock.nowMs(), how: 'Two loads since kept 150 °F.' });
    expect((await refusal(smoke.kitchen.reply('corrective.verify', { correctiveId: corrective.id, how: 'Again.' }))).code).toBe('CONFLICT');
  });
});

describe('the process of a batch', () => {
  it('is not renamed after its start: a cold-smoked batch is never cooked on, and no request takes another process for it', async () => {
    const cold = await openSmokeKitchen({ process: 'cold' });
    const load = await openLoad(cold);
    await cold.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: cold.readyMs });
    const asked = draft(cold, { checkId: '', disposition: 'go-on-cooking' });
    expect(await refusal(cold.kitchen.reply('corrective.open', asked))).toMatchObject({ code: 'RULE_BLOCKS', remedy: expect.stringContaining('A process is not renamed after its start') });
    const renaming = REQUEST_NAMES.filter((name) => contract[name].kind === 'command')
      .filter((name) => contract[name].input.safeParse({ batchId: cold.batchId, process: 'hot' }).error?.issues.some((issue) => issue.code === 'unrecognized_keys' && issue.keys.includes('process')) !== true)
      .filter((name) => name.startsWith('batch.') || name.startsWith('load.') || name.startsWith('soak.') || name.startsWith('corrective.'));
    expect(renaming).toEqual(['batch.make']);
    expect((await cold.kitchen.ask('batch.get', { batchId: cold.batchId })).batch.process).toBe('cold');
  });

  it('decides the limits of a hot batch that missed its heat whatever is done later', async () => {
    const smoke = await missedSmoke();
    await smoke.kitchen.ask('corrective.open', draft(smoke, { disposition: 'rework' }));
    const { process, deciding } = await smoke.kitchen.ask('batch.verdict', { batchId: smoke.batchId });
    expect(process).toBe('hot');
    expect(deciding.checks.find((check) => check.checkId === 'HOT-145-30')?.verdict).toBe('misses');
  });
});
