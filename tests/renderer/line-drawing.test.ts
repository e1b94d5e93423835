import { describe, expect, it } from 'vitest';
import type { LineBar } from '../../app/contract/requests/record.ts';
import { drawLine } from '../../renderer/frame/line-drawing.ts';
import { formatsOf } from '../../renderer/parts/format.ts';

const HOUR = 3_600_000;
const WIDTH = 1170;
const formats = formatsOf({ temperatureUnit: 'F', massUnit: 'lb', timeZone: 'America/Chicago' });
const nowMs = Date.UTC(2026, 2, 12, 19, 0);

function bar(batchId: string, dueInHours: number | null, overdue = false): LineBar {
  return {
    batchId,
    name: batchId,
    steps: [{ kind: 'soak', fromMs: nowMs - 4 * HOUR, toMs: nowMs + 8 * HOUR, planned: true }],
    turns: [{ atMs: nowMs + 2 * HOUR, done: false }],
    dues: dueInHours === null ? [] : [{ atMs: nowMs + dueInHours * HOUR, text: 'turn', overdue, what: 'turn' }],
  };
}
function line(bars: LineBar[]) {
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
    const long: LineBar = { ...bar('A', 1), dues: [{ atMs: nowMs + HOUR, text: 'Read the temperature of every piece again '.repeat(6), overdue: false, what: 'reading' }] };
    const due = drawLine(line([long]), formats, WIDTH).rows[0]?.due;
    expect(due?.text.endsWith('…')).toBe(true);
    expect((due?.text.length ?? 0) * 8.6).toBeLessThan(WIDTH - (due?.x ?? 0));
  });

  it('tells apart the part of a soak that ran and the part to come, also when it has only just begun', () => {
    const begun: LineBar = {
      ...bar('A', 2),
      steps: [{ kind: 'soak', fromMs: nowMs, toMs: nowMs, planned: false }, { kind: 'soak', fromMs: nowMs, toMs: nowMs + 8 * HOUR, planned: true }],
      turns: [{ atMs: nowMs, done: true }, { atMs: nowMs, done: true }],
    };
    const row = drawLine(line([begun]), formats, WIDTH).rows[0];
    expect(row?.steps[0]?.x).toBe(row?.steps[1]?.x);
    expect(new Set(row?.steps.map((step) => step.key)).size).toBe(2);
    expect(new Set(row?.turns.map((turn) => turn.key)).size).toBe(2);
  });

  it('says the date at the first mark of a day', () => {
    const texts = drawLine(line([bar('A', 2)]), formats, WIDTH).hours.map((hour) => hour.text);
    expect(texts.some((text) => /^\d+ Mar$/.test(text))).toBe(true);
  });
});

describe('a turn on the line', () => {
  const turning = (batchId: string, turns: LineBar['turns']): LineBar => ({ ...bar(batchId, 6), turns });
  const rowsOf = (bars: LineBar[], width = WIDTH) => drawLine(line(bars), formats, width).rows;
  it('can be tapped when it is due or nearly due, not hours before and not once it is done', () => {
    const due = (inHours: number, done = false) => rowsOf([turning('A', [{ atMs: nowMs + inHours * HOUR, done }])])[0]?.turnDue ?? null;
    expect(due(-1)).toMatchObject({ atMs: nowMs - HOUR, overdue: true });
    expect(due(0.4)).toMatchObject({ overdue: false });
    expect(due(2)).toBeNull();
    expect(due(-1, true)).toBeNull();
  });
  it('is the first that is due, with the batch it belongs to', () => {
    const row = rowsOf([turning('A', [{ atMs: nowMs - HOUR, done: false }, { atMs: nowMs - 3 * HOUR, done: false }])])[0];
    expect(row).toMatchObject({ batchId: 'A', turnDue: { atMs: nowMs - 3 * HOUR } });
  });
  it('has a row as high as a thumb, which the next row keeps clear of', () => {
    const rows = rowsOf([turning('A', [{ atMs: nowMs, done: false }]), bar('B', 20)]);
    expect(rows[0]?.turnDue?.top).toBeDefined();
    expect((rows[1]?.y ?? 0) - (rows[0]?.turnDue?.top ?? 0)).toBeGreaterThanOrEqual(48);
  });
  it('stands at the right edge where there is no room after the bar', () => {
    expect(rowsOf([turning('A', [{ atMs: nowMs, done: false }])], 420)[0]?.turnDue?.anchor).toBe('end');
    expect(rowsOf([turning('A', [{ atMs: nowMs, done: false }])])[0]?.turnDue?.anchor).toBe('start');
  });
  it('takes the place of the deadline’s words', () => {
    expect(rowsOf([turning('A', [{ atMs: nowMs, done: false }])])[0]?.due).toBeNull();
  });
});
