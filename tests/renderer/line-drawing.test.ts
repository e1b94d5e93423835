import { describe, expect, it } from 'vitest';
import { drawLine } from '../../renderer/frame/line-drawing.ts';
import { formatsOf } from '../../renderer/parts/format.ts';

const HOUR = 3_600_000;
const WIDTH = 1170;
const formats = formatsOf({ temperatureUnit: 'F', massUnit: 'lb', timeZone: 'America/Chicago' });
const nowMs = Date.UTC(2026, 2, 12, 19, 0);

function bar(batchId: string, dueInHours: number | null, overdue = false) {
  return {
    batchId,
    name: batchId,
    steps: [{ kind: 'soak' as const, fromMs: nowMs - 4 * HOUR, toMs: nowMs + 8 * HOUR, planned: true }],
    turns: [{ atMs: nowMs + 2 * HOUR, done: false }],
    dues: dueInHours === null ? [] : [{ atMs: nowMs + dueInHours * HOUR, text: 'turn', overdue }],
  };
}
function line(bars: ReturnType<typeof bar>[]) {
  return { nowMs, fromMs: nowMs - 12 * HOUR, toMs: nowMs + 60 * HOUR, bars };
}

describe('the line as drawn', () => {
  it('keeps every bar, turn and the present inside the strip', () => {
    const drawing = drawLine(line([bar('A', 2)]), formats, WIDTH);
    const row = drawing.rows[0];
    expect(row?.steps[0]?.x).toBeGreaterThan(0);
    expect((row?.steps[0]?.x ?? 0) + (row?.steps[0]?.width ?? 0)).toBeLessThan(WIDTH);
    expect(row?.turns).toHaveLength(1);
    expect(row?.turns[0]?.x).toBeGreaterThan(drawing.nowX);
  });

  it('shows what is overdue first, then what is due soonest, and counts what it hides', () => {
    const drawing = drawLine(line([bar('later', 30), bar('soon', 1), bar('nothing', null), bar('overdue', -1, true), bar('tomorrow', 20), bar('next', 3)]), formats, WIDTH);
    expect(drawing.rows.map((row) => row.name)).toEqual(['overdue', 'soon', 'next']);
    expect(drawing.hidden).toBe(3);
  });

  it('cuts a long deadline to its room instead of running over the edge', () => {
    const long = { ...bar('A', 1), dues: [{ atMs: nowMs + HOUR, text: 'Read the temperature of every piece again '.repeat(6), overdue: false }] };
    const due = drawLine(line([long]), formats, WIDTH).rows[0]?.due;
    expect(due?.text.endsWith('…')).toBe(true);
    expect((due?.text.length ?? 0) * 8.6).toBeLessThan(WIDTH - (due?.x ?? 0));
  });

  it('says the date at the first mark of a day', () => {
    const texts = drawLine(line([bar('A', 2)]), formats, WIDTH).hours.map((hour) => hour.text);
    expect(texts.some((text) => /^\d+ Mar$/.test(text))).toBe(true);
  });
});
