import { describe, expect, it } from 'vitest';
import { nextEmpty, press, type Key } from '../../renderer/readings/enter-draft.ts';

function typed(keys: readonly Key[], from = ''): string {
  return keys.reduce(press, from);
}

describe('the keypad', () => {
  it('writes a figure with one point, and takes the last of it away', () => {
    expect(typed(['1', '4', '5', '.', '.', '2'])).toBe('145.2');
    expect(typed(['1', '4', '6', 'back', '5'])).toBe('145');
    expect(typed(['back'])).toBe('');
  });

  it('puts the minus before the figure, whenever it is pressed, and takes it away again', () => {
    expect(typed(['4', '-'])).toBe('-4');
    expect(typed(['4', '-', '-'])).toBe('4');
  });

  it('takes no more than any thermometer shows', () => {
    expect(typed(['1', '2', '3', '4', '5', '6', '7', '8', '9'])).toBe('12345678');
  });
});

describe('the next piece', () => {
  it('is the next one without a figure, going round, and none when each has one', () => {
    expect(nextEmpty(['a', 'b', 'c'], { a: '1' }, 'a')).toBe('b');
    expect(nextEmpty(['a', 'b', 'c'], { b: '1', c: '2' }, 'b')).toBe('a');
    expect(nextEmpty(['a', 'b'], { a: '1', b: '2' }, 'a')).toBeNull();
    expect(nextEmpty(['a', 'b'], { a: '  ', b: '2' }, 'b')).toBe('a');
  });
});
