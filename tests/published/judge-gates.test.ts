/**
 * Gates. US FDA Food Code 3-502.12(C) as enacted in Washington (fish in a reduced-oxygen pack frozen
 * before, during and after packing; read); State of New York, 10 NYCRR 14-1.35 (no vacuum packing of
 * smoked fish in food service; read). What stands in for what at a gate is our own rule.
 */
import { describe, expect, it } from 'vitest';
import { mayPass } from '../../app/limits/gates.ts';
import type { CaseFacts, JudgeCase, MeasuredPoint, Reading } from '../../app/limits/judge-case.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import { findSet } from '../../app/limits/limit-set.ts';
import type { FiledRecord } from '../../app/limits/on-file.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { ticksFromNumber } from '../../app/measures/temperature.ts';
import { judgeOne, limitBook, onStraightLines, steady, type Points } from '../support/judged-log.ts';

const TRAINING: FiledRecord = { what: 'training', number: 'T-1', holder: 'R. Holm', onFileMs: -86_400_000 };
const PERMIT: FiledRecord = { what: 'permission', number: 'P-9', holder: 'Tamarack Narrows Lodge', onFileMs: -86_400_000 };
const VACUUM_FROZEN = { pack: 'vacuum', store: 'frozen' } as const;

describe('packing and handing over', () => {
  it('W8: hot-smoked, vacuum packed, no salt test, frozen after sealing: packed and handed over by the freeze record', () => {
    const result = judged('lodge-default', wholeBatch());
    const pack = mayPass('pack', VACUUM_FROZEN, result);
    expect(pack).toMatchObject({ verdict: 'meets', blocking: [], line: 'May be packed.' });
    expect(mayPass('leave', VACUUM_FROZEN, result)).toMatchObject({ verdict: 'meets', blocking: [], line: 'May leave.' });
  });

  it('W8: before it is frozen it may be packed, and the line says what is still to come', () => {
    const early = wholeBatch();
    const result = judged('lodge-default', { ...early, frozenMs: undefined, points: early.points.filter((point) => point.role !== 'store'), facts: { ...early.facts, review: undefined, labelledAsSealed: undefined } });
    const pack = mayPass('pack', VACUUM_FROZEN, result);
    expect(pack.verdict).toBe('meets');
    expect(pack.line).toBe('May be packed. Before it leaves: freeze record, review of the record and label as sealed.');
    expect(mayPass('leave', VACUUM_FROZEN, result).verdict).toBe('not-proven');
  });

  it('W8: the chilled route without a salt test is not proven', () => {
    const chilled = { pack: 'vacuum', store: 'refrigerated' } as const;
    const batch = wholeBatch();
    const pack = mayPass('pack', chilled, judged('lodge-default', { ...batch, ...chilled }));
    expect(pack.verdict).toBe('not-proven');
    expect(pack.blocking.map((blocker) => blocker.checkId)).toEqual(['WPS-ROP-3.5']);
  });

  it('W8b: under food-service rules without a variance the fish must be frozen before it is sealed', () => {
    const permitted = (more: Partial<JudgeCase>, facts: CaseFacts = {}): JudgeCase => ({ ...wholeBatch(), ...more, facts: { ...wholeBatch().facts, onFile: [TRAINING, PERMIT], ...facts } });
    expect(mayPass('pack', VACUUM_FROZEN, judged('us-food-code', wholeBatch())).verdict).toBe('misses');
    expect(mayPass('pack', VACUUM_FROZEN, judged('us-food-code', permitted({}))).verdict).toBe('misses');
    const before = permitted({ frozenMs: minutes(1990) });
    expect(mayPass('pack', VACUUM_FROZEN, judged('us-food-code', before)).verdict).toBe('meets');
    expect(mayPass('pack', VACUUM_FROZEN, judged('us-food-code', permitted({}, { variance: true }))).verdict).toBe('meets');
    const onFile = [TRAINING, PERMIT, { ...PERMIT, what: 'variance' as const, number: 'V-2' }];
    expect(mayPass('pack', VACUUM_FROZEN, judged('us-food-code', permitted({}, { onFile }))).verdict).toBe('meets');
    expect(mayPass('pack', VACUUM_FROZEN, judged('us-food-code', permitted({}, { onFile: onFile.map((record) => ({ ...record, validUntilMs: record.what === 'variance' ? minutes(1000) : undefined })) }))).verdict).toBe('misses');
    expect(mayPass('pack', VACUUM_FROZEN, judged('ny-food-service', wholeBatch())).verdict).toBe('misses');
  });

  it('is stopped at the pack gate by a permission that is not on file, and says so by its name', () => {
    const pack = mayPass('pack', VACUUM_FROZEN, judged('us-food-code', { ...wholeBatch(), frozenMs: minutes(1990), facts: { ...wholeBatch().facts, onFile: [] } }));
    expect(pack).toMatchObject({ verdict: 'not-proven', blocking: [{ checkId: 'PERMIT-FC', reason: 'No permission is on file.' }] });
    expect(pack.line).toMatch(/^May not be packed: permission not proven\./);
  });

  it('W9: vacuum packing in New York food service misses, whatever the salt', () => {
    const chilled = { pack: 'vacuum' as const, store: 'refrigerated' as const, saltSamples: [{ saltPercent: 2.6, moisturePercent: 62.4 }] };
    expect(judgeOne('ROP-BAN-NY-FS', 'store', steady(38, 0, 1440, 5), chilled).verdict).toBe('misses');
    expect(judgeOne('ROP-BAN-NY-FS', 'store', steady(38, 0, 1440, 5), { ...chilled, pack: 'air' }).verdict).toBe('does-not-apply');
  });

  it('W10: freezing stands in for salt only, never for cooling', () => {
    const batch = wholeBatch();
    const result = judged('lodge-default', { ...batch, points: batch.points.map((point) => (point.role === 'piece' ? { ...point, readings: point.readings.filter((reading) => reading.atMs <= minutes(330)) } : point)) });
    const pack = mayPass('pack', VACUUM_FROZEN, result);
    expect(pack.verdict).toBe('not-proven');
    expect(pack.blocking.map((blocker) => blocker.checkId)).toEqual(['COOL-AFDO']);
  });

  it('stops nitrite in a species it is not permitted in on the frozen route too', () => {
    const batch = { ...wholeBatch(), species: 'Salvelinus namaycush', saltSamples: [{ saltPercent: '3', moisturePercent: '62', nitritePpm: '120' }] };
    expect(mayPass('pack', VACUUM_FROZEN, judged('lodge-default', batch))).toMatchObject({ verdict: 'misses', blocking: [{ checkId: 'NIT-NONE' }] });
  });

  it('lets the frozen route stand in for the salt minimum even where the store was not known when it was judged', () => {
    const undecided = { ...wholeBatch(), store: undefined };
    expect(mayPass('pack', VACUUM_FROZEN, judged('lodge-default', undecided)).verdict).toBe('meets');
    expect(mayPass('pack', { pack: 'vacuum', store: 'refrigerated' }, judged('lodge-default', undecided)).verdict).toBe('not-proven');
  });

  it('is stopped at the pack gate by what was already due before it', () => {
    const batch = wholeBatch();
    const warm = { ...batch, points: batch.points.map((point) => (point.role === 'brine' ? { ...point, readings: readings([[-720, 62], [-480, 45]]) } : point)) };
    expect(mayPass('pack', VACUUM_FROZEN, judged('lodge-default', warm))).toMatchObject({ verdict: 'misses', blocking: [{ checkId: 'BRINE-START-60' }] });
    expect(mayPass('brine', VACUUM_FROZEN, judged('lodge-default', warm)).verdict).toBe('meets');
  });

  it('offers only the set’s corrective acts after a miss on heat', () => {
    const batch = wholeBatch();
    const cold = { ...batch, points: batch.points.map((point) => (point.name === 'Piece 2' ? { ...point, readings: point.readings.map((reading) => ({ ...reading, lowTicks: Math.min(reading.lowTicks, ticks(144)) })) } : point)) };
    const pack = mayPass('pack', VACUUM_FROZEN, judged('lodge-default', cold));
    expect(pack.verdict).toBe('misses');
    expect(pack.ways.join(' ')).toMatch(/same cook.*process authority.*Destroy/);
    expect(pack.line).toBe('May not be packed: smoking does not meet.');
  });

  it('says of each thing why it keeps the batch, and of none what another shows', () => {
    const batch = wholeBatch();
    const cold = { ...batch, facts: { ...batch.facts, labelledAsSealed: undefined }, points: batch.points.map((point) => (point.role === 'piece' ? { ...point, readings: point.readings.map((reading) => ({ ...reading, lowTicks: Math.min(reading.lowTicks, ticks(144)) })) } : point)) };
    expect(mayPass('leave', VACUUM_FROZEN, judged('lodge-default', cold)).line).toBe('May not leave: smoking does not meet; label as sealed not proven.');
  });

  it('asks initials where a limit is met only within the thermometer’s error', () => {
    const close = { ...wholeBatch(), errorTicks: ticks(34) - ticks(32) };
    const pack = mayPass('pack', VACUUM_FROZEN, judged('lodge-default', close));
    expect(pack.verdict).toBe('meets-within-error');
    expect(pack.needsInitials).toBe(true);
  });

  it('moves a cold batch’s parasite freezing to the leave gate on the frozen route', () => {
    const batch = coldBatch();
    const result = judged('lodge-default', batch);
    expect(mayPass('pack', VACUUM_FROZEN, result).verdict).toBe('meets');
    expect(mayPass('leave', VACUUM_FROZEN, result).blocking.map((blocker) => blocker.checkId)).toContain('PARA-FREEZE-A');
    expect(mayPass('pack', { pack: 'unpacked', store: 'refrigerated' }, judged('lodge-default', { ...batch, pack: 'unpacked', store: 'refrigerated' })).verdict).toBe('misses');
  });
});

function judged(setId: string, batch: JudgeCase) {
  const set = findSet(limitBook, setId);
  if (set === undefined) throw new Error(setId);
  return judgeSet(set, batch, limitBook, { words: minuteWords('F'), paper: true });
}

function minutes(count: number): number {
  return count * 60_000;
}

function ticks(fahrenheit: number): number {
  return ticksFromNumber(fahrenheit, 'F').lowTicks;
}

function readings(points: Points): Reading[] {
  return points.map(([minute, value]) => ({ atMs: minutes(minute), ...ticksFromNumber(value, 'F') }));
}

/** A hot batch that meets every limit of the lodge default: raw, soak, hold, cooling, freezer. */
function wholeBatch(): JudgeCase {
  const piece = (number: number): MeasuredPoint => ({
    name: `Piece ${number}`, role: 'piece', record: 'process', thicknessMm: 30,
    readings: readings([[-900, 36], [-870, 36], [-840, 37], ...onStraightLines([[0, 50], [235, 144], [240, 146], [300, 146], [310, 141], [325, 138], [360, 100], [420, 68], [500, 50], [600, 39]], 5)]),
  });
  return {
    process: 'hot', ...VACUUM_FROZEN,
    points: [
      piece(1), piece(2), piece(3),
      { name: 'Tub', role: 'brine', record: 'soak', readings: readings([[-720, 52], [-480, 45]]) },
      { name: 'Cooler', role: 'room', record: 'soak', readings: readings(steady(37, -720, 0, 60)) },
      { name: 'Freezer', role: 'store', record: 'store', readings: readings(steady(-5, 2000, 5000, 600)) },
    ],
    records: {
      process: { inMs: 0, outMs: minutes(305), open: false },
      soak: { inMs: minutes(-720), outMs: 0, open: false },
      freezer: { open: false },
      store: { inMs: minutes(2000), outMs: minutes(5000), open: false },
    },
    sealedMs: minutes(1995), frozenMs: minutes(2600), errorTicks: 0, saltSamples: [],
    facts: { brineReused: false, cure: 'wet', wasFrozen: false, labelledAsSealed: true, review: { recordedMs: 0, reviewedMs: minutes(1440), reviewer: 'R. Holm' }, onFile: [TRAINING] },
  };
}

/** A cold batch frozen for one day only. */
function coldBatch(): JudgeCase {
  const hot = wholeBatch();
  const [tub, cooler, freezer] = hot.points.slice(3);
  if (tub === undefined || cooler === undefined || freezer === undefined) throw new Error('points');
  return {
    ...hot, process: 'cold',
    points: [
      { name: 'Piece 1', role: 'piece', record: 'process', readings: readings([[-900, 36], [-870, 36], [-840, 37]]) },
      { name: 'Smoker', role: 'chamber', record: 'process', readings: readings(steady(75, 0, 305, 5)) },
      { name: 'Drying room', role: 'room', record: 'dry', readings: readings(steady(38, 0, 300, 60)) },
      tub, cooler, freezer,
      { name: 'Freezer', role: 'store', record: 'freezer', readings: readings(steady(-5, 2000, 3440, 60)) },
    ],
  };
}
