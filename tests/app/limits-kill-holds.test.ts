/** What is said of a hold, alone and of all pieces together, and what a spot check takes from it. */
import { describe, expect, it } from 'vitest';
import { spansOf } from '../../app/limits/evidence.ts';
import { freezeRule, heatRule, measurePlace, type HoldRule } from '../../app/limits/hold-rule.ts';
import { breakText, missedText, neededText } from '../../app/limits/hold-words.ts';
import { holdsNamed, judgeCheck } from '../../app/limits/judge.ts';
import type { JudgeCase, RecordSpan } from '../../app/limits/judge-case.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, minutes, needCheck, pieceF, running } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const words = minuteWords('F');
const HEAT = heatRuleOf();
const COLD = coldRuleOf();

function heatRuleOf(): HoldRule {
  const check = needCheck('HOT-145-30');
  if (check.kind !== 'hold') throw new Error('no hold');
  return heatRule(check, 0);
}

function coldRuleOf(): HoldRule {
  const check = needCheck('PARA-EU-20-24');
  if (check.kind !== 'freeze') throw new Error('no freezing');
  return freezeRule(check, 0);
}

function measured(points: Points, span: Partial<RecordSpan> = {}, rule = HEAT, more: Partial<JudgeCase> = {}) {
  return measurePlace(pieceF('A', points, { id: 'a' }), rule, batchOf([], { maxGapMs: minutes(10), ...more }), { open: false, ...span });
}

describe('a hold that is not proven', () => {
  const said = (points: Points, span: Partial<RecordSpan> = {}, rule = HEAT) => breakText(measured(points, span, rule), rule, 'not-proven', words);
  it('says what is proven, and names the widest gap of the stretch that may have done', () => {
    expect(said([[0, 146], [5, 146]])).toBe('Piece A: 5 of 30 min proven.');
    expect(said([[0, 146], [20, 146], [60, 146]])).toBe('Piece A: 0 of 30 min proven; a gap from minute 20 to minute 60 hides the rest.');
    expect(said([[0, 146], [20, 146], [25, 146], [26, 140], [40, 140], [62, 140]])).toBe('Piece A: 5 of 30 min proven; a gap from minute 0 to minute 20 hides the rest.');
    expect(said([[0, 146], [5, 146]], { inMs: minutes(-50), outMs: minutes(20) })).toBe('Piece A: 5 of 30 min proven; a gap from minute -50 to minute 0 hides the rest.'.replace('-', '−'));
    expect(said([[0, 146], [5, 146]], { inMs: minutes(-20), outMs: minutes(50) })).toBe('Piece A: 5 of 30 min proven; a gap from minute 5 to minute 50 hides the rest.');
  });
  it('says that nothing was in, and whether a gap could hide it', () => {
    expect(said([[0, 140], [5, 140]])).toBe('Piece A: no reading is 145 °F or above.');
    expect(said([[0, 140], [40, 140]])).toBe('Piece A: no reading is 145 °F or above; only a gap from minute 0 to minute 40 could hide it.');
    expect(said([])).toBe('Piece A: no reading.');
  });
});

describe('a hold that is missed', () => {
  const said = (points: Points, rule = HEAT) => missedText(measured(points, {}, rule), rule, words);
  it('names the nearest reading, the warmest in heat and the coldest in cold', () => {
    expect(said([[0, 140], [5, 144], [10, 143]])).toBe('Piece A was never 145 °F or above; the nearest reading is 144 °F at minute 5.');
    expect(said([[0, 144], [5, 144]])).toContain('144 °F at minute 0');
    expect(said([[0, 5], [60, 1], [120, 3]], COLD)).toBe('Piece A was never −20 °C or below; the nearest reading is 1 °F at minute 60.');
    expect(said([[0, 1], [60, 1]], COLD)).toContain('1 °F at minute 0');
  });
  it('says what broke it', () => {
    expect(said([[0, 146], [10, 146], [15, 144]])).toBe('Piece A: 10 of 30 min at 145 °F or above (minute 0 to minute 10); 144 °F at minute 15 broke it.');
    expect(said([[0, 146], [10, 146]])).toBe('Piece A: 10 of 30 min at 145 °F or above (minute 0 to minute 10); the record ends there.');
    expect(said([[0, 146], [10, 146], [25, 146]])).toContain('no reading followed until minute 25');
  });
  it('of all together may be kept by one alone', () => {
    expect(said(steady(146, 0, 30, 10))).toBe('Piece A alone: 30 min, but not at the same time as the others.');
    expect(said(steady(146, 0, 20, 10))).toContain('20 of 30 min');
    expect(said([])).toBe('Piece A: no reading.');
  });
  it('needs the whole time without a break; a running one the rest of it', () => {
    expect([neededText(HEAT, 'open', 0, words), neededText(HEAT, 'open', 1, words)]).toEqual(['145 °F or above, then 30 min without a break.', '145 °F or above for 30 min without a break.']);
    expect([neededText(HEAT, 'misses', 0, words), neededText(HEAT, 'meets', 0, words)]).toEqual(['30 min at 145 °F or above without a break, with no gap between readings.', '']);
  });
});

describe('the spans of a hold', () => {
  const shown = (points: Points, span: Partial<RecordSpan> = {}) => spansOf(measured(points, span), HEAT, { open: false, ...span }, words).map(({ fromMs, toMs, counts, why }) => [fromMs / 60_000, toMs / 60_000, counts, why]);
  it('are in, out, and gaps between readings and at the marks; just the longest step is none', () => {
    expect(shown([[0, 146], [10, 146], [15, 140], [30, 146]])).toEqual([[0, 10, true, '145 °F or above'], [15, 15, false, 'not 145 °F or above'], [15, 30, false, 'no reading for 15 min'], [30, 30, true, '145 °F or above']]);
    expect(shown([[0, 146]], { inMs: minutes(-10), outMs: minutes(10) })).toEqual([[0, 0, true, '145 °F or above']]);
    expect(shown([[0, 146]], { inMs: minutes(-11), outMs: minutes(11) })).toEqual([[-11, 0, false, 'no reading for 11 min'], [0, 0, true, '145 °F or above'], [0, 11, false, 'no reading for 11 min']]);
    expect(shown([], { inMs: 0, outMs: 1 })).toEqual([]);
  });
});

describe('all pieces together', () => {
  const judged = (records: readonly Points[], asked = 2, change: (batch: JudgeCase) => JudgeCase = (batch) => batch) =>
    judgeCheck(needCheck('HOT-145-30'), change(batchOf(records.map((points, index) => pieceF('ABCDE'[index] ?? '', points)), { maxGapMs: minutes(10) })),
      { words, alone: false, holds: holdsNamed(limitBook, ['HOT-145-30']), together: true, probesAsked: asked });
  const A = steady(146, 10, 50, 5);
  const B = steady(146, 20, 60, 5);
  it('keep the stretch that all of them share', () => {
    expect(judged([A, B])).toMatchObject({ verdict: 'meets', provenMinutes: 30, possibleMinutes: 30, reason: 'All pieces together at 145 °F or above from minute 20 to minute 50, 30 min proven.' });
    expect(judged([A, steady(146, 21, 61, 5)])).toMatchObject({ verdict: 'misses', provenMinutes: 29, reason: 'All pieces together at 145 °F or above: 29 of 30 min (minute 21 to minute 50). Piece A alone: 40 min, but not at the same time as the others.' });
    expect(judged([A, steady(140, 20, 60, 5)])).toMatchObject({ verdict: 'misses', reason: 'All pieces together at 145 °F or above: no time. Piece B was never 145 °F or above; the nearest reading is 140 °F at minute 20.' });
    expect(judged([A, steady(146, 21, 61, 20)])).toMatchObject({ verdict: 'misses', provenMinutes: 0, possibleMinutes: 29 });
    expect(judged([A, steady(146, 20, 60, 20)])).toMatchObject({ verdict: 'not-proven', reason: 'All pieces together at 145 °F or above: 0 of 30 min (minute 20 to minute 20) proven; gaps hide the rest.' });
    expect(judged([A, []], 3)).toMatchObject({ verdict: 'not-proven', provenMinutes: 0, possibleMinutes: 40 });
    expect(judged([[], []], 3)).toMatchObject({ verdict: 'not-proven', reason: 'There is no reading of it in the record.' });
    expect(judged([A, steady(146, 30, 50, 5)], 3, running)).toMatchObject({ verdict: 'open', reason: 'All pieces together at 145 °F or above: 20 of 30 min (minute 30 to minute 50) so far. Piece B: 20 of 30 min so far.' });
  });
  it('are not broken by a spot check that read out beside what they share', () => {
    expect(judged([A, B, [[15, 140]], [[55, 140]]])).toMatchObject({ verdict: 'meets', provenMinutes: 30 });
    expect(judged([A, B, [[35, 146]]]).verdict).toBe('meets');
    // The common stretch begins at 5, after the reading at 4, though A’s own begins before it.
    expect(judged([[[0, 146], [10, 146], [20, 146], [30, 146], [35, 146]], [[5, 146], [15, 146], [25, 146], [35, 146]], [[4, 140]]]).verdict).toBe('meets');
  });
  it('are not proven by what a spot check read out in, and the earliest reading is named', () => {
    const spoiled = judged([A, B, [[40, 141]], [[20, 140]], [[30, 142]]]);
    expect(spoiled).toMatchObject({ verdict: 'not-proven', provenMinutes: 30, reason: 'Piece D was only spot-checked and read 140 °F at minute 20, inside the others’ hold.' });
    expect(spoiled.pieces.map(({ name, verdict }) => `${name} ${verdict}`)).toEqual(['A meets', 'B meets', 'C does-not-apply', 'D does-not-apply', 'E does-not-apply']);
    expect(judged([A, B, [[50, 140]]], 2, running).verdict).toBe('open');
    expect(judged([A, B, [[50, 140]]], 3).verdict).toBe('misses');
  });
  it('may go on around it, from the next reading of any of them', () => {
    const long = (from: number) => steady(146, from, from + 60, 10);
    expect(judged([long(0), long(0), [[15, 140]]])).toMatchObject({ verdict: 'meets', provenMinutes: 40 });
    expect(judged([long(0), long(3), [[11, 140]]])).toMatchObject({ verdict: 'meets', provenMinutes: 47 });
    expect(judged([long(0), long(3), [[41, 140]]])).toMatchObject({ verdict: 'meets', provenMinutes: 37 });
    expect(judged([steady(146, 0, 50, 10), steady(146, 0, 50, 10), [[25, 140]]]).verdict).toBe('not-proven');
  });
});

describe('each piece for itself', () => {
  const verdictOf = (records: readonly Points[]) => judgeCheck(needCheck('HOT-145-30'), batchOf(records.map((points, index) => pieceF('ABCDE'[index] ?? '', points)), { maxGapMs: minutes(10) }),
    { words, alone: true, holds: holdsNamed(limitBook, ['HOT-145-30']), together: false, probesAsked: 1 });
  it('keeps what a spot check leaves of its own hold, by its own readings', () => {
    const long = steady(146, 0, 60, 10);
    expect(verdictOf([long, [[15, 140]]])).toMatchObject({ verdict: 'meets', provenMinutes: 40, reason: 'Piece A: 145 °F or above from minute 20 to minute 60, 40 min proven.' });
    expect(verdictOf([long, steady(146, 3, 63, 10), [[15, 140]]])).toMatchObject({ verdict: 'meets', provenMinutes: 40 });
    expect(verdictOf([long, steady(146, 100, 130, 10), [[115, 140]]])).toMatchObject({ verdict: 'not-proven', reason: 'Piece C was only spot-checked and read 140 °F at minute 115, inside the others’ hold.' });
  });
});
