import { describe, expect, it } from 'vitest';
import { sayHours, sayReaches } from '../../renderer/places/brine-bench/hours-words.ts';
import { nameOfFigure, workingOf } from '../../renderer/places/brine-bench/figure-workings.ts';
import { piecesOf, scaleOf } from '../../renderer/places/brine-bench/forecast-rows.ts';
import { words } from '../../renderer/words/words.ts';

describe('hours as a kitchen says them', () => {
  it.each([[0.02, '15 min'], [0.4, '30 min'], [0.9, '1 h'], [1, '1 h'], [1.4, '1.5 h'], [2.6, '2.5 h'], [2.9, '3 h'], [9.4, '9 h'], [47.6, '48 h']])('%f hours are %s', (hours, said) => {
    expect(sayHours(hours)).toBe(said);
  });
  it('say what is likely before what may be', () => {
    expect(sayReaches({ earliest: 6, likely: 9.2, latest: 15.1 })).toBe('Reaches the goal in about 9 h, may be 6 to 15 h.');
  });
  it('keep both units where they differ', () => {
    expect(sayReaches({ earliest: 0.5, likely: 1, latest: 2 })).toBe('Reaches the goal in about 1 h, may be 30 min to 2 h.');
  });
  it('say that a goal may never be reached, or can’t be', () => {
    expect(sayReaches({ earliest: 20, likely: 31, latest: null })).toContain('may never get there');
    expect(sayReaches({ earliest: 20, likely: null, latest: null })).toContain('20 h at the earliest');
    expect(sayReaches({ earliest: null, likely: null, latest: null })).toBe(words.brineBench.forecast.never);
  });
  it('say that a goal is reached before the fish goes in', () => {
    expect(sayReaches({ earliest: 0, likely: 0, latest: 0 })).toBe(words.brineBench.forecast.already);
  });
});

describe('a figure that is tapped', () => {
  const lines = [{ ingredientId: 'salt', name: 'Salt', grams: 946, saltGrams: 946, household: '', remark: '' }];
  const general = { figure: 'lines', text: 'all lines', source: 'a' };
  const own = { figure: 'line.salt', text: 'the salt', source: 'b' };
  const litres = { figure: 'litres', text: 'the volume', source: 'c' };
  it('is explained by its own working, and a line of an older card by that of all lines', () => {
    expect(workingOf({ workings: [general, own] }, 'line.salt')).toBe(own);
    expect(workingOf({ workings: [general] }, 'line.salt')).toBe(general);
    expect(workingOf({ workings: [general, litres] }, 'litres')).toBe(litres);
  });
  it('has no explanation where the card gives none: another figure’s is never shown for it', () => {
    expect(workingOf({ workings: [general] }, 'litres')).toBeUndefined();
    expect(workingOf({ workings: [] }, 'line.salt')).toBeUndefined();
  });
  it('is named by its ingredient, or by what it is', () => {
    expect(nameOfFigure({ lines }, 'line.salt')).toBe('Salt');
    expect(nameOfFigure({ lines }, 'floatShowsDegrees')).toBe(words.brineBench.explain.names.floatShowsDegrees);
  });
});

describe('a forecast on the page', () => {
  const range = (high: number) => ({ percent: high - 0.5, low: high - 1, high });
  const piece = (thicknessMm: number, high: number) => ({
    thicknessMm, reaches: { earliest: 1, likely: 2, latest: 3 }, planned: { brined: range(high), finished: range(high + 1) }, long: { brined: range(high + 0.2), finished: null },
  });
  it('shows one piece where all are as thick, else the thickest first', () => {
    expect(piecesOf({ thickest: piece(20, 3), thinnest: piece(20, 3) })).toHaveLength(1);
    expect(piecesOf({ thickest: piece(20, 3), thinnest: piece(8, 4) }).map((each) => each.piece.thicknessMm)).toEqual([20, 8]);
  });
  it('draws all bars on one scale that holds the highest of them', () => {
    expect(scaleOf({ thickest: piece(20, 3.2), thinnest: piece(8, 4.4) })).toBe(6);
  });
});
