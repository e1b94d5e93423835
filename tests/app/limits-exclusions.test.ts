import { describe, expect, it } from 'vitest';
import { applyExclusions, judgeBothWays } from '../../app/limits/exclusions.ts';
import type { ExcludedReading, JudgeCase, MeasuredPoint } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needSet, pieceF, readingsF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const HELD: Points = steady(146, 0, 40, 5);
const DIP: Points = HELD.map(([minute, value]) => [minute, minute === 20 ? 60 : value]);
const pulled = (more: Partial<ExcludedReading> = {}): ExcludedReading => ({ pointName: 'A', atMs: minutes(20), reason: 'probe pulled out', byInitials: 'KM', ...more });
const both = (judged: JudgeCase) => judgeBothWays(needSet('me'), judged, limitBook, { words: minuteWords('F'), paper: false });
const hot = (result: ReturnType<typeof both>['deciding']) => result.checks.find((check) => check.checkId === 'HOT-145-30')?.verdict;

describe('an excluded reading', () => {
  it('gives both verdicts: the deciding one without it, and the one as recorded', () => {
    const found = both(batchOf([pieceF('A', DIP)], { excluded: [pulled()] }));
    expect([hot(found.deciding), hot(found.asRecorded)]).toEqual(['meets', 'misses']);
    expect(found.words).toMatch(/^With 1 reading excluded \(Piece A at minute 20, by KM: probe pulled out\): .+\. As recorded: does not meet .+\.$/);
  });
  it('leaves a hole, which may prove less than it hid', () => {
    const excluded = [15, 20, 25].map((minute) => pulled({ atMs: minutes(minute) }));
    const found = both(batchOf([pieceF('A', DIP)], { excluded }));
    expect([hot(found.deciding), hot(found.asRecorded)]).toEqual(['not-proven', 'misses']);
  });
  it('is taken out by nobody but a named person with a reason, and only where there is one', () => {
    const refused: [Partial<ExcludedReading>, string][] = [
      [{ reason: ' ' }, 'no reason'], [{ byInitials: '' }, 'names nobody'], [{ atMs: minutes(21) }, 'no reading at that moment'],
      [{ pointName: 'B' }, 'no such point'], [{ pointName: undefined }, 'no such point'], [{ pointId: 'x' }, 'no such point'],
    ];
    for (const [more, why] of refused) {
      const found = both(batchOf([pieceF('A', DIP)], { excluded: [pulled(more)] }));
      expect(found.refused[0]?.why, why).toContain(why);
      expect([hot(found.deciding), found.applied.length, found.words], why).toEqual(['misses', 0, '']);
      expect(found.deciding).toBe(found.asRecorded);
    }
  });
  it('is named by its point’s id before its name, and never by a name that two points share', () => {
    const chamber: MeasuredPoint = { name: 'A', role: 'chamber', readings: readingsF(DIP) };
    const shared = batchOf([pieceF('A', DIP), chamber], { excluded: [pulled()] });
    expect(applyExclusions(shared).refused[0]?.why).toContain('Several points');
    const byId = applyExclusions({ ...shared, points: [pieceF('A', DIP, { id: 'p1' }), chamber], excluded: [pulled({ pointId: 'p1' })] });
    expect(byId.judged.points.map((point) => point.readings.length)).toEqual([DIP.length - 1, DIP.length]);
  });
  it('that is named by its ticks leaves what another thermometer read at that instant', () => {
    const [dip] = readingsF([[20, 60]]);
    const twice = batchOf([pieceF('A', [...DIP, [20, 146]])], { excluded: [pulled({ lowTicks: dip?.lowTicks, highTicks: dip?.highTicks })] });
    const { judged, applied } = applyExclusions(twice);
    expect(applied).toHaveLength(1);
    expect(judged.points[0]?.readings).toHaveLength(DIP.length);
    expect(hot(both(twice).deciding)).toBe('meets');
    expect(applyExclusions({ ...twice, excluded: [pulled()] }).judged.points[0]?.readings).toHaveLength(DIP.length - 1);
  });
  it('may be of a place that serves as the room of the soak and as the store', () => {
    const room: MeasuredPoint = { id: 'p1', name: 'Cooler', role: 'room', record: 'soak', readings: readingsF(DIP) };
    const shared = batchOf([room, { ...room, role: 'store', record: 'store' }], { excluded: [pulled({ pointId: 'p1', pointName: undefined })] });
    expect(applyExclusions(shared).judged.points.map((point) => point.readings.length)).toEqual([DIP.length - 1, DIP.length - 1]);
  });
  it('is never taken out by the judge on its own', () => {
    expect(judgeAlone('HOT-145-30', batchOf([pieceF('A', DIP)], { excluded: [pulled()] })).verdict).toBe('misses');
  });
  it('changes nothing else: without exclusions both are one result', () => {
    const found = both(batchOf([pieceF('A', HELD)]));
    expect(found.deciding).toBe(found.asRecorded);
    expect(applyExclusions(batchOf([pieceF('A', HELD)])).judged.points).toEqual(batchOf([pieceF('A', HELD)]).points);
  });
});

describe('a doubt that nobody decided', () => {
  const doubted = (points: Points, minute: number) => readingsF(points).map((reading) => (reading.atMs === minutes(minute) ? { ...reading, doubt: 'spike' } : reading));
  const at = (checkId: string, role: MeasuredPoint['role'], points: Points, minute: number, more: Partial<JudgeCase> = {}) => judgeAlone(checkId, batchOf([{ name: 'A', role, readings: doubted(points, minute) }], more));

  it('counts as out for a hold, and the reason says so', () => {
    const found = at('HOT-145-30', 'piece', HELD, 20);
    expect(found.verdict).toBe('misses');
    expect(found.reason).toMatch(/1 reading is in doubt \(spike\) and counts against the batch until a person decides\.$/);
    expect(at('HOT-145-30', 'piece', [...HELD, [45, 146], [50, 146], [55, 146]], 20).verdict).toBe('meets');
  });
  it('counts as out for a freezing', () => {
    const cold = { process: 'cold' as const };
    expect(at('PARA-FREEZE-A', 'store', steady(-5, 0, 168 * 60, 60), 6000, cold).verdict).toBe('misses');
    expect(at('PARA-FREEZE-B', 'store', steady(-33, 0, 21 * 60, 60), 60, { ...cold, frozenMs: minutes(360) }).verdict).toBe('not-proven');
  });
  it('counts as real for a ceiling', () => {
    expect(at('STORE-38', 'store', steady(37, 0, 600, 30).map(([minute, value]): [number, number] => [minute, minute === 300 ? 80 : value]), 300).verdict).toBe('misses');
  });
  it('never helps a cooling, whether it is counted or left out', () => {
    const cooling: Points = [[0, 140], [60, 90], [110, 69], [170, 60], [280, 39]];
    expect(at('COOL-AFDO', 'piece', cooling, -1).verdict).toBe('meets');
    // Left out, 70 °F may have come after two hours.
    expect(at('COOL-AFDO', 'piece', cooling, 110).verdict).not.toBe('meets');
    const spike: Points = [...cooling, [200, 75]];
    expect(at('COOL-AFDO', 'piece', spike, 200).verdict).toBe('misses');
  });
  it('is decided by an exclusion that names it', () => {
    const judged = batchOf([{ ...pieceF('A', []), readings: doubted(HELD, 20) }], { excluded: [pulled({ reason: 'a spike, the probe was wiggled' })] });
    const found = both(judged);
    expect([hot(found.deciding), hot(found.asRecorded)]).toEqual(['meets', 'misses']);
  });
});
