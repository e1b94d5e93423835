import { describe, expect, it } from 'vitest';
import { openTestKitchen } from '../support/test-kitchen.ts';

describe('the list of limits', () => {
  it('shows which set decides, and of each check its figures, source and mark', async () => {
    const kitchen = await openTestKitchen();
    const { sets } = await kitchen.ask('limits.list', {});
    expect(sets.filter((set) => set.decides).map((set) => set.setId)).toEqual(['lodge-default']);
    const checks = new Map(sets.find((set) => set.setId === 'lodge-default')?.checks.map((check) => [check.checkId, check]));
    expect(checks.get('HOT-145-30')?.figures).toBe('145 °F or more, unbroken for 30 min');
    expect(checks.get('COOL-AFDO')?.figures).toBe('from 140 °F to 70 °F or less within 2 h, 40 °F or less within 4 h, each from the one before');
    expect(checks.get('PARA-FREEZE-A')?.figures).toBe('−4 °F or less, unbroken for 7 days');
    expect(checks.get('WPS-ROP-3.5')?.figures).toBe('at least 3.5 % salt in the water phase');
    expect(checks.get('COOL-AFDO')).toMatchObject({ mark: 'second-hand', confirmation: null });
    for (const check of checks.values()) expect(check.source).not.toBe('');
  });

  it('lets a set that was not read in full decide only once each unseen figure is confirmed', async () => {
    const kitchen = await openTestKitchen();
    const set = async (setId: string) => (await kitchen.ask('limits.list', {})).sets.find((one) => one.setId === setId);
    const before = await set('wi');
    expect(before).toMatchObject({ readInFull: false, mayDecide: false });
    const unseen = before?.checks.filter((check) => check.mark === 'second-hand' || check.mark === 'from memory').map((check) => check.checkId) ?? [];
    expect(unseen.length).toBeGreaterThan(1);
    for (const checkId of unseen.slice(1)) await kitchen.ask('limits.confirm', { checkId, document: 'ATCP 70, Appendix A, our copy' });
    expect((await set('wi'))?.mayDecide).toBe(false);
    await kitchen.ask('limits.confirm', { checkId: unseen[0] ?? '', document: 'ATCP 70, Appendix A, our copy' });
    expect((await set('wi'))?.mayDecide).toBe(true);
  });
});

describe('confirming a limit', () => {
  it('keeps who, when and which document, and the latest stands', async () => {
    const kitchen = await openTestKitchen();
    await kitchen.ask('limits.confirm', { checkId: 'COOL-AFDO', document: 'Draft' });
    kitchen.clock.advance(60_000);
    const { confirmation } = await kitchen.ask('limits.confirm', { checkId: 'COOL-AFDO', document: 'AFDO Cured, Salted and Smoked Fish, 2018, our copy' });
    expect(confirmation).toMatchObject({ checkId: 'COOL-AFDO', initials: 'MG', atMs: kitchen.clock.nowMs() });
    const { sets } = await kitchen.ask('limits.list', {});
    for (const check of sets.flatMap((set) => set.checks.filter((one) => one.checkId === 'COOL-AFDO'))) expect(check.confirmation).toEqual(confirmation);
  });

  it('is a manager’s, of a check that is there', async () => {
    const kitchen = await openTestKitchen();
    expect(await kitchen.reply('limits.confirm', { checkId: 'COOL-AFDO', document: 'x' }, 'CH')).toMatchObject({ ok: false, error: { code: 'NOT_ALLOWED' } });
    expect(await kitchen.reply('limits.confirm', { checkId: 'COOL-9000', document: 'x' })).toMatchObject({ ok: false, error: { code: 'NOT_FOUND', fields: [{ path: ['checkId'] }] } });
  });
});
