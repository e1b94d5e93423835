/**
 * Coolings on edges that the worked cases don't reach: where the clock starts, which pieces take part and
 * which stage is told. A descent starts at the first fall to the start or below after the completed hold, or
 * at the end of smoking; a re-warm doesn't reset it; over 120 min between two readings prove nothing.
 */
import { describe, expect, it } from 'vitest';
import { measureDescent } from '../../app/limits/descent.ts';
import type { JudgeCase, MeasuredPoint, Reading } from '../../app/limits/judge-case.ts';
import { aloneContext, judgeCheck } from '../../app/limits/judge.ts';
import type { DescentCheck } from '../../app/limits/limit-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, minutes, needCheck, pieceF, readingsF, ticksF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const context = aloneContext(limitBook, minuteWords('F'));
const cool = (check: DescentCheck, pieces: readonly MeasuredPoint[], more: Partial<JudgeCase> = {}) => judgeCheck(check, batchOf(pieces, more), context);
const placesOf = (found: ReturnType<typeof cool>) => found.pieces.map(({ name, verdict }) => `${name} ${verdict}`);

function descent(checkId: string, more: Partial<DescentCheck> = {}): DescentCheck {
  const check = needCheck(checkId);
  if (check.kind !== 'descent') throw new Error(`${checkId} is no cooling`);
  return { ...check, conditions: undefined, relaxes: undefined, ...more };
}
/** 135 to 70 °F in 2 h and to 41 °F in 6 h, one clock (US FDA Food Code 3-501.14, read). */
const FC = descent('COOL-FC');
/** From the end of smoking: 50 °F in 3 h, 38 °F in 12 h (US Code of Federal Regulations, title 21, 172.177, from memory). */
const CHUB = descent('COOL-CHUB');
/** One target alone, with time for a wide step before it. */
const SINGLE = descent('COOL-FC', { targets: [{ limit: { value: '41', unit: 'F' }, minutes: 600 }] });
const FULL: Points = [[0, 150], [5, 130], [60, 69], [180, 50], [300, 41]];

describe('a clock that starts at the end of smoking', () => {
  const chub = (points: Points, mark: number | undefined = 0) => cool(CHUB, [pieceF('A', points)], { endOfSmokingMs: mark === undefined ? undefined : minutes(mark) });
  it('counts a piece read at that very moment, and no piece read only before', () => {
    const cooled = pieceF('B', [[60, 120], [100, 60], [200, 50], [320, 40], [400, 38]]);
    const at = cool(CHUB, [pieceF('A', [[60, 120]]), cooled], { endOfSmokingMs: minutes(60) });
    expect([at.verdict, placesOf(at)]).toEqual(['not-proven', ['A not-proven', 'B meets']]);
    const before = cool(CHUB, [pieceF('A', [[30, 150], [50, 140]]), cooled], { endOfSmokingMs: minutes(60) });
    expect([before.verdict, placesOf(before)]).toEqual(['meets', ['A does-not-apply', 'B meets']]);
  });
  it('is not proven by readings before it, however cold', () => {
    expect(chub([[-60, 36], [-30, 36]])).toMatchObject({ verdict: 'not-proven', reason: 'Piece A: the end of smoking is not marked, or nothing was read after it.' });
  });
  it('without its mark leaves no piece out', () => {
    const found = cool(CHUB, [pieceF('A', [[0, 150], [60, 40]]), pieceF('B', [])]);
    expect(placesOf(found)).toEqual(['A not-proven', 'B not-proven']);
  });
  it('misses where the first reading after it is late and still above', () => {
    expect(chub([[190, 60], [200, 38]])).toMatchObject({ verdict: 'misses', shortestMinutes: 190 });
  });
  it('meets where the first reading after it is at the targets', () => {
    expect(chub([[5, 38], [60, 37]])).toMatchObject({ verdict: 'meets', longestMinutes: 5 });
  });
  it('takes nothing from what was read before it', () => {
    expect(chub([[-10, 37], [-5, 37], [30, 49], [60, 37]])).toMatchObject({ verdict: 'meets', longestMinutes: 30 });
    expect(chub([[-5, 37], [10, 100], [120, 49], [230, 37]])).toMatchObject({ verdict: 'meets', shortestMinutes: 10, longestMinutes: 120 });
    // The step across the mark is not one between the start and the last target.
    expect(chub([[-100, 150], [30, 100], [100, 50], [200, 38]])).toMatchObject({ verdict: 'meets', longestMinutes: 100 });
  });
});

describe('where a cooling starts', () => {
  it('is after a hold at exactly the limit, and not after one a tick below it', () => {
    const after = (held: number) => cool(FC, [pieceF('A', [[0, 146], [5, 130], ...steady(held, 10, 40, 5), [45, 134], [130, 69], [200, 50], [300, 40]])]);
    expect(after(145)).toMatchObject({ verdict: 'meets', longestMinutes: 90 });
    expect(after(144.9998)).toMatchObject({ verdict: 'not-proven', longestMinutes: 130 });
  });
  it('is after the hold also where the thermometer’s error lifts it over what was kept', () => {
    const error = { errorTicks: ticksF(11) - ticksF(0) };
    const held = steady(145.5, 0, 30, 5);
    expect(cool(FC, [pieceF('A', [...held, [40, 100], [60, 58], [120, 45], [200, 29]])], error).verdict).toBe('meets');
    // What was read hot between two holds is no fall, and the next hold’s first reading is none either.
    expect(cool(FC, [pieceF('A', [...steady(150, 0, 30, 5), [60, 150], ...steady(145.5, 90, 120, 5), [130, 100], [150, 58], [200, 45], [260, 29]])], error).verdict).toBe('meets');
    // A piece that had cooled before the mark still takes part, and shows that 11 °F are too much for it.
    const early = pieceF('A', [...held, [40, 100], [60, 58], [120, 45], [200, 35]]);
    const late = pieceF('B', [...steady(145.5, 500, 530, 5), [540, 100], [560, 58], [620, 45], [700, 29]]);
    expect(cool(FC, [early, late], { ...error, endOfSmokingMs: minutes(600) }).verdict).toBe('meets-within-error');
  });
});

describe('which pieces take part', () => {
  it('does not count as cooled a piece that was below the start all along and read only before the mark', () => {
    const found = cool(FC, [pieceF('A', [[0, 100], [10, 110]]), pieceF('B', [[0, 150], [70, 130], [120, 69], [200, 50], [300, 41]])], { endOfSmokingMs: minutes(60) });
    expect([found.verdict, placesOf(found)]).toEqual(['meets', ['A does-not-apply', 'B meets']]);
  });
  it('keeps in a piece that fell to exactly the start, was heated again and is still hot', () => {
    const found = cool(FC, [pieceF('A', [[0, 150], [5, 135], ...steady(146, 10, 40, 5)]), pieceF('B', FULL)]);
    expect([found.verdict, placesOf(found)]).toEqual(['not-proven', ['A not-proven', 'B meets']]);
  });
  it('of equal verdicts and room tells the one whose shortest is longest', () => {
    const stayed = (name: string, hot: number) => pieceF(name, [[0, 135], [hot, 80], [130, 69], [250, 41]]);
    expect(cool(FC, [stayed('A', 60), stayed('B', 100)])).toMatchObject({ verdict: 'not-proven', shortestMinutes: 100, longestMinutes: 130 });
  });
});

describe('the readings of a cooling', () => {
  it('count as real where they are in doubt and the verdict is the same without them', () => {
    const points: Points = [[0, 150], [5, 130], [60, 90], [100, 69], [110, 68], [200, 50], [310, 41]];
    const readings = readingsF(points).map((reading) => (reading.atMs === minutes(100) ? { ...reading, doubt: 'a jump' } : reading));
    expect(cool(FC, [{ ...pieceF('A', []), readings }])).toMatchObject({ verdict: 'meets', longestMinutes: 100 });
  });
  it('that are over two hours apart prove nothing, from the last one above the start on', () => {
    expect(cool(SINGLE, [pieceF('A', [[0, 146], [130, 130], [200, 39]])])).toMatchObject({ verdict: 'not-proven', reason: 'Piece A: no reading for 130 min from minute 0; over 2 hours between readings prove nothing.' });
    const apart = (lastMs: number) => {
      const last: Reading = { atMs: lastMs, lowTicks: ticksF(39), highTicks: ticksF(39) };
      return cool(SINGLE, [{ ...pieceF('A', []), readings: [...readingsF([[0, 146], [10, 130]]), last] }]).verdict;
    };
    expect([apart(minutes(130)), apart(minutes(130) + 1)]).toEqual(['meets', 'not-proven']);
  });
  it('after the last target tell nothing of it, in a check of one target too', () => {
    expect(cool(SINGLE, [pieceF('A', [[0, 146], [10, 130], [100, 41], [150, 60]])])).toMatchObject({ verdict: 'meets', longestMinutes: 100 });
  });
});

describe('several coolings of one piece', () => {
  it('are told by the one with the least room', () => {
    const twice: Points = [
      ...steady(146, 0, 30, 5), [40, 130], [90, 69], [200, 50], [300, 40],
      ...steady(146, 400, 430, 5), [440, 130], [545, 69], [620, 50], [700, 40],
    ];
    expect(cool(FC, [pieceF('A', twice)])).toMatchObject({ verdict: 'meets', longestMinutes: 115 });
  });
});

describe('a stage with a clock of its own', () => {
  const AFDO = descent('COOL-AFDO');
  const stagesOf = (points: Points, open = false) => {
    const batch = batchOf([pieceF('A', points)]);
    const [point] = batch.points;
    if (point === undefined) throw new Error('no piece');
    return measureDescent(AFDO, point, { ...batch, records: { ...batch.records, process: { open } } }, context, 0).descents[0]?.stages;
  };
  it('is not proven where nothing tells how early the first target was reached', () => {
    expect(stagesOf([[10, 60], [20, 40]])?.[1]).toMatchObject({ verdict: 'not-proven', longestMs: undefined });
  });
  it('has not begun before the first target, and can begin only in an open record', () => {
    const hot: Points = [[0, 150], [10, 130], [60, 90]];
    expect(stagesOf(hot)?.[1]).toMatchObject({ verdict: 'not-proven', longestMs: 0, shortestMs: 0, isReached: false });
    expect(stagesOf(hot, true)?.[1]).toMatchObject({ verdict: 'open', longestMs: 0, shortestMs: 0, isReached: false });
  });
});
