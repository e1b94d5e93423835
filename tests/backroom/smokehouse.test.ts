import { describe, expect, it } from 'vitest';
import { coolingColumns, loadInput, openLoad, openSmokeKitchen, refusal, smokeColumns, soakedBatch } from './smoke-kitchen.ts';
import { COHO, guest, HOUR_MS, makeBatch, MINUTE_MS, receive, WHITEFISH } from './fish-and-brine.ts';

describe('opening a load', () => {
  it('makes the pieces and the chamber, numbers the load and puts the batch in', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    expect(load).toMatchObject({ number: 1, smokerName: 'Old smoker', process: 'hot', openedBy: 'MG', inAtMs: null, outAtMs: null });
    expect(load.points.map(({ name, role, thicknessMm, instrumentName }) => [name, role, thicknessMm, instrumentName])).toEqual([
      ['Thick end', 'piece', 32, 'Probe 1'], ['Centre cut', 'piece', 28, 'Probe 2'], ['Tail', 'piece', 24, 'Probe 3'], ['Chamber', 'chamber', null, 'Chamber probe'],
    ]);
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch.loadId).toBe(load.id);
    expect((await smoke.kitchen.ask('load.list', {})).loads).toEqual([load]);
  });

  it('waits until the soak has ended', async () => {
    const smoke = await openSmokeKitchen();
    const lot = await receive(smoke.kitchen);
    const { id, shortName } = await makeBatch(smoke.kitchen, [lot.id]);
    const pieces = loadInput(smoke).pieces.map((piece) => ({ ...piece, batchId: id }));
    const error = await refusal(smoke.kitchen.reply('load.open', loadInput(smoke, { batchIds: [id], pieces })));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: `The soak of ${shortName} has not ended.` });
  });

  it('takes no second load while one is inside, and no batch twice', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const other = await soakedBatch(smoke.kitchen);
    const pieces = [{ name: 'One', batchId: other, thicknessMm: 20, rackPlace: '', instrumentId: null }];
    expect((await refusal(smoke.kitchen.reply('load.open', loadInput(smoke, { batchIds: [other], pieces })))).message).toBe('Load 1 is still in Old smoker.');
    const inMs = smoke.kitchen.clock.nowMs();
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: inMs });
    expect(await refusal(smoke.kitchen.reply('load.open', loadInput(smoke)))).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringMatching(/^WF26329\w+ is already in load 1\.$|^WF 329.* is already in load 1\.$/) });
    expect((await smoke.kitchen.ask('load.open', loadInput(smoke, { batchIds: [other], pieces }))).load.number).toBe(2);
  });

  it('smokes hot and cold apart', async () => {
    const smoke = await openSmokeKitchen();
    const cold = await soakedBatch(smoke.kitchen, { process: 'cold' });
    const input = loadInput(smoke, { batchIds: [smoke.batchId, cold] });
    const error = await refusal(smoke.kitchen.reply('load.open', { ...input, pieces: [...input.pieces, { name: 'Cold one', batchId: cold, thicknessMm: 20, rackPlace: '', instrumentId: null }] }));
    expect(error).toMatchObject({ code: 'RULE_BLOCKS', message: expect.stringContaining('for hot smoking') });
  });

  it('wants each piece named once, of a batch of the load, and each batch measured', async () => {
    const smoke = await openSmokeKitchen();
    const input = loadInput(smoke);
    const [first] = input.pieces;
    if (first === undefined) throw new Error('no piece');
    const twice = [...input.pieces, { ...first, name: 'thick END', instrumentId: null }];
    expect((await refusal(smoke.kitchen.reply('load.open', { ...input, pieces: twice }))).message).toBe('Two pieces are called “thick END”.');
    const stranger = [{ ...first, batchId: 'someone-else' }];
    expect((await refusal(smoke.kitchen.reply('load.open', { ...input, pieces: stranger }))).message).toContain('doesn’t go into this load');
    const other = await soakedBatch(smoke.kitchen);
    expect((await refusal(smoke.kitchen.reply('load.open', { ...input, batchIds: [smoke.batchId, other] }))).message).toMatch(/^WF 329 B has no piece to measure\.$/);
  });

  it('puts a wired probe in one place only, a hand thermometer in as many as wanted', async () => {
    const smoke = await openSmokeKitchen();
    const input = loadInput(smoke);
    const shared = input.pieces.map((piece) => ({ ...piece, instrumentId: smoke.probeIds[0] ?? null }));
    expect((await refusal(smoke.kitchen.reply('load.open', { ...input, pieces: shared }))).message).toBe('Probe 1 is already in piece “Thick end” and can’t be in piece “Centre cut” too.');
    const chamber = input.pieces.map((piece, index) => ({ ...piece, instrumentId: index === 0 ? smoke.chamberProbeId : null }));
    expect((await refusal(smoke.kitchen.reply('load.open', { ...input, pieces: chamber }))).message).toContain('can’t be in the chamber too');
    const byHand = input.pieces.map((piece) => ({ ...piece, instrumentId: smoke.handId }));
    expect((await smoke.kitchen.ask('load.open', { ...input, pieces: byHand })).load.points).toHaveLength(4);
  });
});

describe('marks of a load', () => {
  it('give the lot code when it goes in: species, day and the load’s letter', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs });
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch).toMatchObject({ lotCode: expect.stringMatching(/^WF26329A[0-9A-Z]$/), stage: 'smoking' });
  });

  it('give two batches of one load one letter, but never one code, and the next load the next letter', async () => {
    const smoke = await openSmokeKitchen();
    const coho = await soakedBatch(smoke.kitchen, {}, { speciesId: COHO });
    const guests = await soakedBatch(smoke.kitchen, {}, { speciesId: WHITEFISH, source: guest('Ada Lind') });
    const pieces = [smoke.batchId, coho, guests].map((batchId, index) => ({ name: `Piece ${index}`, batchId, thicknessMm: 25, rackPlace: '', instrumentId: null }));
    const load = await openLoad(smoke, { batchIds: [smoke.batchId, coho, guests], pieces });
    const atMs = smoke.kitchen.clock.nowMs();
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs });
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs });
    const next = await soakedBatch(smoke.kitchen);
    const second = await openLoad(smoke, { batchIds: [next], pieces: [{ name: 'One', batchId: next, thicknessMm: 25, rackPlace: '', instrumentId: null }] });
    await smoke.kitchen.ask('load.mark', { loadId: second.id, what: 'in', atMs: smoke.kitchen.clock.nowMs() });
    const { batches } = await smoke.kitchen.ask('batch.list', {});
    const codeOf = (id: string) => batches.find((batch) => batch.id === id)?.lotCode?.slice(0, -1);
    expect([codeOf(smoke.batchId), codeOf(coho), codeOf(guests), codeOf(next)]).toEqual(['WF26329A', `${codeOf(coho)?.slice(0, 2)}26329A`, 'WF26329B', 'WF26329C']);
  });

  it('renew the code of a load that comes out on another day, and say so', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const inMs = smoke.readyMs + 12 * HOUR_MS;
    smoke.kitchen.clock.set(inMs + 8 * HOUR_MS);
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: inMs });
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'out', atMs: inMs + 8 * HOUR_MS });
    expect((await smoke.kitchen.ask('batch.get', { batchId: smoke.batchId })).batch.lotCode).toMatch(/^WF26330A/);
    const { entries } = await smoke.kitchen.ask('record.batch', { batchId: smoke.batchId });
    expect(entries.some((entry) => /is lot WF26330A\w now, of the day smoking ended; it was WF26329A\w\.$/.test(entry.summary))).toBe(true);
  });

  it('come in order, once each, and none before it happened', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    const mark = (what: 'in' | 'end-of-smoking' | 'out' | 'cooled', atMs: number) => smoke.kitchen.reply('load.mark', { loadId: load.id, what, atMs });
    const inMs = smoke.readyMs + 10 * MINUTE_MS;
    smoke.kitchen.clock.set(inMs + 6 * HOUR_MS);
    expect((await refusal(mark('out', inMs))).message).toBe('Load 1 has no mark for going in.');
    expect((await refusal(mark('in', smoke.readyMs - MINUTE_MS))).message).toMatch(/^Going in can’t be at 09:59 on 25 Nov 2026: the end of the soak of WF 329 was at 10:00/);
    expect((await mark('in', inMs)).ok).toBe(true);
    expect(await refusal(mark('in', inMs + MINUTE_MS))).toMatchObject({ code: 'CONFLICT', message: 'Load 1 went in at 10:10 on 25 Nov 2026; that is marked already.' });
    expect((await refusal(mark('out', inMs - MINUTE_MS))).message).toMatch(/^Coming out can’t be at 10:09 .*: going in was at 10:10/);
    expect((await refusal(mark('out', inMs + 7 * HOUR_MS))).message).toBe('17:10 on 25 Nov 2026 is still to come.');
    expect((await mark('out', inMs + 5 * HOUR_MS)).ok).toBe(true);
    expect((await refusal(mark('end-of-smoking', inMs + 5 * HOUR_MS + MINUTE_MS))).message).toMatch(/^The end of smoking can’t be at 15:11 .*, after coming out at 15:10/);
    expect((await mark('end-of-smoking', inMs + 4 * HOUR_MS)).ok).toBe(true);
    expect((await refusal(mark('cooled', inMs + 4 * HOUR_MS))).message).toMatch(/coming out was at 15:10/);
    expect((await mark('cooled', inMs + 6 * HOUR_MS)).ok).toBe(true);
  });

  it('are told to every page that shows the load, the batch or its verdict', async () => {
    const smoke = await openSmokeKitchen();
    const load = await openLoad(smoke);
    smoke.kitchen.announced();
    await smoke.kitchen.ask('load.mark', { loadId: load.id, what: 'in', atMs: smoke.readyMs });
    expect(smoke.kitchen.announced()).toEqual(expect.arrayContaining([
      { subject: 'load', ids: [load.id] }, { subject: 'batch', ids: [smoke.batchId] }, { subject: 'verdict', ids: [smoke.batchId] },
    ]));
  });
});

describe('generated logs', () => {
  it('rise over 145 °F in the smoke and fall under 40 °F in the cold', () => {
    const smoked = smokeColumns();
    const cooled = coolingColumns(smoked);
    for (const name of ['Probe 1', 'Probe 2', 'Probe 3']) {
      expect(smoked[name]?.at(0)).toBe(42);
      expect(smoked[name]?.at(-1)).toBeGreaterThan(170);
      expect(cooled[name]?.at(-1)).toBeLessThan(39);
    }
  });
});
