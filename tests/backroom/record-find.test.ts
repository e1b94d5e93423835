import { describe, expect, it } from 'vitest';
import { openTestKitchen, type TestKitchen } from '../support/test-kitchen.ts';
import { COHO, guest, HOUR_MS, LAKE_TROUT, makeBatch, receive } from './fish-and-brine.ts';

/** Three batches of three days: a guest's lake trout, bought whitefish, bought coho. */
async function shelf(): Promise<{ kitchen: TestKitchen; found: (text: string) => Promise<string[]>; trout: string; lotCode: string }> {
  const kitchen = await openTestKitchen();
  const own = await receive(kitchen, { speciesId: LAKE_TROUT, source: guest('Ida Moen', 'L-77') });
  const trout = await makeBatch(kitchen, [own.id]);
  kitchen.clock.advance(24 * HOUR_MS);
  await makeBatch(kitchen, [(await receive(kitchen)).id]);
  kitchen.clock.advance(24 * HOUR_MS);
  await makeBatch(kitchen, [(await receive(kitchen, { speciesId: COHO, source: { kind: 'supplier', supplierName: 'Salt River Boats', supplierLot: 'SR 9' } })).id]);
  async function found(text: string): Promise<string[]> {
    return (await kitchen.ask('record.find', { text })).batches.map(({ batch }) => batch.shortName);
  }
  return { kitchen, found, trout: trout.id, lotCode: own.code };
}

describe('finding a batch', () => {
  it('shows every batch for an empty text, the newest first', async () => {
    const { found } = await shelf();
    expect(await found('')).toEqual(['CO 331', 'WF 330', 'LT 329']);
  });

  it('goes by the code of its fish lot in any grouping', async () => {
    const { found, lotCode } = await shelf();
    const grouped = `${lotCode.slice(0, 1)} ${lotCode.slice(1, 6)} ${lotCode.slice(6, 8)}-${lotCode.slice(8)}`;
    for (const text of [lotCode, lotCode.toLowerCase(), grouped]) expect(await found(text)).toEqual(['LT 329']);
  });

  it.each([
    ['its short name', 'wf 330', ['WF 330']],
    ['its species', 'whitefish', ['WF 330']],
    ['the beginning of its species', 'lake', ['WF 330', 'LT 329']],
    ['its scientific name', 'Oncorhynchus', ['CO 331']],
    ['its owner', 'moen', ['LT 329']],
    ['its supplier and species together', 'salt coho', ['CO 331']],
    ['its day in figures', '2026-11-26', ['WF 330']],
    ['its day in words', '26 Nov 2026', ['WF 330']],
    ['its month', 'november 2026', ['CO 331', 'WF 330', 'LT 329']],
  ])('goes by %s', async (_what, text, names) => {
    const { found } = await shelf();
    expect(await found(text)).toEqual(names);
  });

  it.each(['sturgeon', 'moen whitefish', 'ZZ99', '2 Dec 2026'])('finds nothing for “%s”', async (text) => {
    const { found } = await shelf();
    expect(await found(text)).toEqual([]);
  });
});

describe('a finished batch on the shelf', () => {
  it('is found by its lot in any grouping, in part, and by its packs, with its verdict as it is now', async () => {
    const kitchen = await openTestKitchen({ demo: true });
    const { batches } = await kitchen.ask('record.find', { text: 'whitefish' });
    // Four of its packs lie in the freezer still, so that its store’s record alone goes on.
    expect(batches[0]).toMatchObject({ packCount: 12, decision: { decision: 'release', initials: 'RO' }, verdictWords: expect.stringMatching(/^So far: 6 of 7 limits of Lodge default/) });
    const { deciding } = await kitchen.ask('batch.verdict', { batchId: batches[0]?.batch.id ?? '' });
    expect(deciding.checks.filter(({ verdict }) => verdict === 'open').map(({ checkId }) => checkId)).toEqual(['FROZEN-0F']);
    const code = batches[0]?.batch.lotCode ?? '';
    const grouped = `${code.slice(0, 2)} ${code.slice(2, 7)} ${code.slice(7, 8)}-${code.slice(8)}`;
    for (const text of [code, code.toLowerCase(), grouped, code.slice(0, 7), `${code}-007`]) {
      expect((await kitchen.ask('record.find', { text })).batches).toEqual(batches);
    }
  });
});

describe('the record of a batch that has only been made', () => {
  it('has its fish, its card and its entries on an intact chain, and no load', async () => {
    const { kitchen, trout } = await shelf();
    const record = await kitchen.ask('record.batch', { batchId: trout });
    expect(record).toMatchObject({ load: null, series: [], packs: [], labels: [], decisions: [], labResults: [], batch: { ownerName: 'Ida Moen' }, lots: [{ batchIds: [trout] }] });
    expect(record.entries.map((entry) => entry.kind)).toEqual(['fishLot.receive', 'batch.make']);
    expect(record.chain.intact).toBe(true);
    expect(record.chain.entries).toBeGreaterThanOrEqual(record.entries.length);
  });

  it('is refused for a batch that is not there', async () => {
    const { kitchen } = await shelf();
    expect(await kitchen.reply('record.batch', { batchId: 'nowhere' })).toMatchObject({ ok: false, error: { code: 'NOT_FOUND' } });
  });
});
