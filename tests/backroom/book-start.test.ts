import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';

function startInput(): Input<'book.start'> {
  return {
    kitchen: {
      name: 'Test Kitchen', address: { street: '', city: 'Rainy Point', region: 'Minnesota', postalCode: '' }, timeZone: 'America/Chicago',
      temperatureUnit: 'F', massUnit: 'lb', kind: 'food-service', decidingSetId: 'lodge-default',
    },
    people: [{ initials: 'MG', name: '', role: 'manager' }, { initials: 'HA', name: '', role: 'hand' }],
  };
}

describe('starting a book', () => {
  it('goes from no book to an open one with kitchen, people and recipes', async () => {
    const kitchen = await openTestKitchen({ empty: true });
    expect(await kitchen.ask('book.status', {})).toMatchObject({ state: 'none', kitchen: null, people: [], fault: null, nowMs: kitchen.clock.nowMs() });
    const state = await kitchen.ask('book.start', startInput());
    expect(state).toMatchObject({ state: 'open', readOnly: false, kitchen: { name: 'Test Kitchen', demo: false } });
    expect(state.people.map((person) => person.initials)).toEqual(['MG', 'HA']);
    expect((await kitchen.ask('recipe.list', {})).recipes.length).toBeGreaterThan(0);
  });

  it('refuses a second book beside the open one', async () => {
    const kitchen = await openTestKitchen({ empty: true });
    await kitchen.ask('book.start', startInput());
    expect(await kitchen.reply('book.start', startInput(), null)).toMatchObject({ ok: false, error: { code: 'CONFLICT' } });
    expect(await kitchen.reply('book.openDemo', {}, null)).toMatchObject({ ok: false, error: { code: 'CONFLICT', message: expect.stringContaining('Test Kitchen') } });
  });

  it.each<[string, (input: Input<'book.start'>) => void, string, (string | number)[]]>([
    ['a zone that is none', (input) => { input.kitchen.timeZone = 'Lake/Time'; }, 'INVALID_INPUT', ['kitchen', 'timeZone']],
    ['initials given twice', (input) => { input.people.push({ initials: 'ha', name: '', role: 'chef' }); }, 'INVALID_INPUT', ['people', 2, 'initials']],
    ['no manager', (input) => { input.people.shift(); }, 'INVALID_INPUT', ['people']],
    ['a set that may not decide', (input) => { input.kitchen.decidingSetId = 'ny-plant'; }, 'RULE_BLOCKS', ['kitchen', 'decidingSetId']],
    ['a set that is not there', (input) => { input.kitchen.decidingSetId = 'nowhere'; }, 'NOT_FOUND', ['kitchen', 'decidingSetId']],
  ])('refuses %s and leaves no book', async (_what, spoil, code, path) => {
    const kitchen = await openTestKitchen({ empty: true });
    const input = startInput();
    spoil(input);
    expect(await kitchen.reply('book.start', input, null)).toMatchObject({ ok: false, error: { code, fields: [{ path }] } });
    expect((await kitchen.ask('book.status', {})).state).toBe('none');
  });

  it('writes a backup beside the book', async () => {
    const kitchen = await openTestKitchen();
    const copy = await kitchen.ask('book.backUp', {});
    expect(copy.fileName).toContain('2026-11-25');
    expect(copy.bytes).toBeGreaterThan(4096);
  });
});

describe('the set that is proposed', () => {
  it.each([
    ['food-service', 'Minnesota', 'us-food-code', 'Written for'],
    ['food-service', 'wi', 'us-food-code', 'Written for'],
    ['food-service', 'NY', 'lodge-default', 'New York food service'],
    ['food-service', 'Manitoba', 'lodge-default', 'No set here is written for'],
    ['seller', 'Oregon', 'or-retail', 'Written for'],
    ['seller', 'MI', 'lodge-default', 'no figure for cooling'],
    ['seller', 'MN', 'lodge-default', 'HOT-145-30'],
    ['custom-processor', 'MN', 'lodge-default', 'No set here is written for'],
    ['custom-processor', 'AK', 'lodge-default', 'Alaska'],
    ['home', '', 'lodge-default', 'HOT-150-30-HOME'],
  ] as const)('for %s in %s is %s', async (kind, region, setId, words) => {
    const kitchen = await openTestKitchen({ empty: true });
    const proposal = await kitchen.ask('book.propose', { kind, region });
    expect(proposal.setId).toBe(setId);
    expect(proposal.why).toContain(words);
    expect(proposal.choices.find((choice) => choice.setId === setId)).toMatchObject({ name: proposal.setName, mayDecide: true });
    expect(proposal.choices.find((choice) => choice.setId === 'ny-food-service')?.mayDecide).toBe(false);
  });

  it('is the state’s own once its figures are confirmed', async () => {
    const kitchen = await openTestKitchen();
    const { sets } = await kitchen.ask('limits.list', {});
    for (const check of sets.find((set) => set.setId === 'ny-food-service')?.checks ?? []) {
      await kitchen.ask('limits.confirm', { checkId: check.checkId, document: 'Our copy' });
    }
    expect((await kitchen.ask('book.propose', { kind: 'food-service', region: 'New York' })).setId).toBe('ny-food-service');
  });
});
