/** The figures of every check of the book: each can be read, changed alone, and compared. */
import { describe, expect, it } from 'vitest';
import { figuresOf, figureWords, strictnessOf, withFigures, type CheckFigure } from '../../app/limits/figures.ts';
import { compareDecimals, decimalFrom, quotientText } from '../../app/limits/decimals.ts';
import { fitOf } from '../../app/limits/conditions.ts';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import { batchOf, needCheck } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

const EVERY = limitBook.checks.flatMap((check) => figuresOf(check).map((figure) => ({ id: check.id, field: figure.field, check, figure })));
const CHANGED = '7';

function fieldsOf(figures: readonly CheckFigure[]): Record<string, string> {
  return Object.fromEntries(figures.map(({ field, value }) => [field, value]));
}

describe('every figure', () => {
  it.each(EVERY)('$id $field changes alone', ({ check, figure }) => {
    const changed = withFigures(check, [{ field: figure.field, value: CHANGED }]);
    if (!changed.ok) throw new Error(changed.problem.message);
    expect(fieldsOf(figuresOf(changed.value))).toEqual({ ...fieldsOf(figuresOf(check)), [figure.field]: CHANGED });
    expect(figuresOf(changed.value).map(({ unit, stricter }) => [unit, stricter])).toEqual(figuresOf(check).map(({ unit, stricter }) => [unit, stricter]));
  });

  it('is stricter the way its text means it', () => {
    const ways = (id: string) => figuresOf(needCheck(id)).map(({ field, unit, stricter }) => `${field} ${unit} ${stricter}`);
    expect(ways('HOT-145-30')).toEqual(['limit F higher', 'minutes min higher']);
    expect(ways('PARA-FREEZE-B')).toEqual(['limit F lower', 'minutes min higher', 'untilSolid F lower']);
    expect(ways('PARA-FREEZE-A')).toEqual(['limit F lower', 'minutes min higher']);
    expect(ways('COLD-90-20')).toEqual(['limit F lower', 'minutes min lower']);
    expect(ways('STORE-38')).toEqual(['limit F lower']);
    expect(ways('COOL-FC')).toEqual(['from F higher', 'target-1 F lower', 'target-1-minutes min lower', 'target-2 F lower', 'target-2-minutes min lower']);
    expect(ways('COOL-CHUB')).toEqual(['target-1 F lower', 'target-1-minutes min lower', 'target-2 F lower', 'target-2-minutes min lower']);
    expect(ways('WPS-ROP-3.0-N')).toEqual(['percent % higher', 'nitriteLeast ppm higher', 'nitriteMost ppm lower']);
    expect(ways('BRINE-4H-38')).toEqual(['limit F lower', 'overMinutes min lower']);
    expect(ways('BRINE-REUSE-AK')).toEqual(['batches batches lower', 'freshMinutes min lower']);
    expect(ways('BRINE-REUSE')).toEqual(['batches batches lower']);
    expect(ways('CAL-1Y')).toEqual(['months months lower']);
    expect(ways('REC-KEEP-90D')).toEqual(['days days higher']);
    expect(ways('REC-KEEP-1Y')).toEqual(['years years higher']);
    expect(ways('COOL-MI')).toEqual([]);
  });

  it('is tighter, looser or the same, exactly and across scales', () => {
    const [limit, time] = figuresOf(needCheck('HOT-145-30'));
    const [ceiling] = figuresOf(needCheck('STORE-38'));
    if (limit === undefined || time === undefined || ceiling === undefined) throw new Error('no figure');
    const compare = (figure: CheckFigure, value: string, unit?: 'F' | 'C') => strictnessOf(figure, { field: figure.field, value, unit });
    expect([compare(limit, '145.001'), compare(limit, '145.0'), compare(limit, '144.999'), compare(limit, '62.78', 'C'), compare(limit, '62.77', 'C')]).toEqual(['tighter', 'same', 'looser', 'tighter', 'looser']);
    expect([compare(time, '31'), compare(time, '30'), compare(time, '29')]).toEqual(['tighter', 'same', 'looser']);
    expect([compare(ceiling, '37.9'), compare(ceiling, '38.1')]).toEqual(['tighter', 'looser']);
    expect([figureWords(limit), figureWords(time), figureWords(limit, { field: 'limit', value: ' 63 ', unit: 'C' }), figureWords(time, { field: 'minutes', value: ' 45 ' })]).toEqual(['145 °F', '30 min', '63 °C', '45 min']);
  });

  it('refuses what is no figure of it', () => {
    const said = (id: string, field: string, value: string, unit?: 'F' | 'C') => {
      const changed = withFigures(needCheck(id), [{ field, value, unit }]);
      return changed.ok ? 'taken' : changed.problem.message;
    };
    expect(said('HOT-145-30', 'colour', '7')).toBe('HOT-145-30 has no figure “colour”.');
    expect([said('HOT-145-30', 'minutes', '0'), said('HOT-145-30', 'minutes', '-1'), said('HOT-145-30', 'minutes', '1.5'), said('HOT-145-30', 'minutes', '1')])
      .toEqual(['0 min can’t be right.', '-1 min can’t be right.', '1.5 min is not a whole number.', 'taken']);
    expect([said('SALT-9-CA', 'percent', '0'), said('SALT-9-CA', 'percent', '-0.1'), said('SALT-9-CA', 'percent', '9.5')]).toEqual(['taken', '-0.1 % can’t be right.', 'taken']);
    expect([said('HOT-145-30', 'limit', '145.0001'), said('HOT-145-30', 'limit', '62.7777', 'C'), said('HOT-145-30', 'limit', 'hot'), said('HOT-145-30', 'limit', '1e2')])
      .toEqual(['taken', '62.7777 °C has too many decimals to be compared exactly.', '“hot” is not a number.', '“1e2” is not a number.'].map((text, index) => (index === 0 ? '145.0001 °F has too many decimals to be compared exactly.' : text)));
  });
});

describe('exact decimals', () => {
  it('read signs, points and exponents', () => {
    const same = (left: string, right: string) => compareDecimals(decimalFrom(left), decimalFrom(right));
    expect([same('1e2', '100'), same('1.5e1', '15'), same('-2', '-2.0'), same('-2', '2'), same('2', '-2'), same('1e2', '99.9'), same('0.1', '1e-1'), same('1e0', '1')]).toEqual([0, 0, 0, -1, 1, 1, 0, 0]);
    expect(decimalFrom('1e3')).toEqual({ digits: 1000n, scale: 0 });
    expect(decimalFrom('12.5e1')).toEqual({ digits: 125n, scale: 0 });
    expect(() => decimalFrom('a lot')).toThrow('not a decimal: a lot');
  });
  it('show quotients below one with their zero', () => {
    expect([quotientText(decimalFrom('1'), decimalFrom('200'), 4), quotientText(decimalFrom('0'), decimalFrom('3'), 2), quotientText(decimalFrom('35'), decimalFrom('10'), 1)]).toEqual(['0.005', '0', '3.5']);
  });
});

describe('nitrite as a condition', () => {
  const sample = (nitritePpm?: string) => ({ saltPercent: '3', moisturePercent: '60', ...(nitritePpm === undefined ? {} : { nitritePpm }) });
  const fitWith = (nitrite: 'found' | 'permitted', samples: (string | undefined)[], nitriteUsed?: boolean) => {
    const batch: JudgeCase = batchOf([], { saltSamples: samples.map(sample), facts: { nitriteUsed } });
    return fitOf({ nitrite }, batch).fit;
  };
  it('is found by one sample above nothing, or by the recipe', () => {
    expect([fitWith('found', ['0', '1']), fitWith('found', ['0', '0.5']), fitWith('found', ['0']), fitWith('found', ['0', undefined]), fitWith('found', []), fitWith('found', [], true), fitWith('found', [], false)])
      .toEqual(['holds', 'holds', 'contradicted', 'not-given', 'not-given', 'holds', 'contradicted']);
  });
  it('is permitted with every sample from 100 to 200 ppm, ends included', () => {
    expect([fitWith('permitted', ['100', '200']), fitWith('permitted', ['99.9', '150']), fitWith('permitted', ['150', '200.1']), fitWith('permitted', ['150', undefined]), fitWith('permitted', []), fitWith('permitted', ['99.9', undefined])])
      .toEqual(['holds', 'contradicted', 'contradicted', 'not-given', 'not-given', 'contradicted']);
  });
});
