/** The line as numbers: where each hour, bar, turn and deadline stands. Pure, so that it can be tested without a page. */
import type { Output } from '../../app/contract/contract.ts';
import type { LineBar } from '../../app/contract/requests/record.ts';
import type { Formats } from '../parts/format.ts';

/** Room for a name such as “RT 329 Rainbow Trout”. */
const LEFT = 196;
const RIGHT = 12;
const TOP = 32;
const ROW = 27;
/** More rows would push the work off a small screen; the rest are counted. */
const MOST_ROWS = 3;
/** A due text such as “Turn RT 329 in its brine” needs about this much. */
const DUE_WIDTH = 300;
const HOUR_MS = 3_600_000;
/** A row with a turn to tap is as high as a thumb needs, its bar in the middle. */
const TURN_ROW = 54;
const TURN_SHIFT = 17;
/** “turn due 14:05” and its button. */
const TURN_WIDTH = 250;
/** A turn may be tapped a little before it is due: nobody stands by with a clock. */
const TURN_LEAD_MS = 30 * 60_000;
/** The least room for “25 Nov” or “18:00” without touching its neighbour. */
const LABEL_PX = 72;
/** About the width of a letter at 16 px, bold. */
const LETTER_PX = 8.6;

/** `key` tells the parts of a row apart, which two that begin at one place can’t by that place. */
type LineStep = { key: string; kind: LineBar['steps'][number]['kind']; x: number; width: number; planned: boolean };
export interface LineRow {
  readonly batchId: string;
  readonly y: number;
  readonly name: string;
  readonly steps: readonly LineStep[];
  readonly turns: readonly { readonly key: string; readonly x: number; readonly done: boolean }[];
  readonly due: { readonly x: number; readonly text: string; readonly overdue: boolean; readonly anchor: 'start' | 'end' } | null;
  /** A turn that can be logged by one tap: the first that is due; `x` from the left, or from the right where there is no room after the bar. */
  readonly turnDue: { readonly x: number; readonly top: number; readonly atMs: number; readonly overdue: boolean; readonly anchor: 'start' | 'end' } | null;
}
export interface LineDrawing {
  readonly height: number;
  readonly nowX: number;
  readonly hours: readonly { readonly x: number; readonly text: string }[];
  readonly rows: readonly LineRow[];
  readonly hidden: number;
}

/** Places every part of the line on a strip of `width` by the answered height. */
export function drawLine(line: Output<'line.get'>, formats: Pick<Formats, 'clock' | 'moment'>, width: number): LineDrawing {
  const span = line.toMs - line.fromMs;
  const x = (atMs: number): number => round(LEFT + (Math.min(Math.max(atMs, line.fromMs), line.toMs) - line.fromMs) / span * (width - LEFT - RIGHT));
  const shown = [...line.bars].sort((a, b) => urgency(a) - urgency(b)).slice(0, MOST_ROWS);
  let below = TOP;
  const rows = shown.map((bar) => {
    const top = below;
    below += dueTurn(bar, line.nowMs) === undefined ? ROW : TURN_ROW;
    return drawRow(bar, top, x, line, width);
  });
  return {
    height: below + 6,
    nowX: x(line.nowMs),
    hours: hourTicks(line.fromMs, line.toMs, (width - LEFT - RIGHT) / (span / (6 * HOUR_MS)) < LABEL_PX ? 12 : 6).map((atMs, index, ticks) => ({ x: x(atMs), text: tickText(atMs, ticks[index - 1], formats) })),
    rows,
    hidden: line.bars.length - shown.length,
  };
}

/** The first turn that isn't logged, once it is due or nearly so. */
function dueTurn(bar: LineBar, nowMs: number): LineBar['turns'][number] | undefined {
  return bar.turns.filter((turn) => !turn.done && turn.atMs <= nowMs + TURN_LEAD_MS).toSorted((a, b) => a.atMs - b.atMs)[0];
}

function drawRow(bar: LineBar, top: number, x: (atMs: number) => number, line: Output<'line.get'>, width: number): LineRow {
  const inside = bar.steps.filter((step) => step.toMs > line.fromMs && step.fromMs < line.toMs);
  const turn = dueTurn(bar, line.nowMs);
  const next = turn === undefined ? bar.dues.toSorted((a, b) => a.atMs - b.atMs)[0] : undefined;
  const lastX = Math.max(x(line.nowMs), ...inside.map((step) => x(step.toMs)));
  const dueFits = lastX < width - DUE_WIDTH;
  const turnFits = lastX < width - TURN_WIDTH - RIGHT;
  return {
    batchId: bar.batchId,
    y: turn === undefined ? top : top + TURN_SHIFT,
    name: bar.name,
    steps: inside.map((step, index) => ({ key: `${index} ${step.kind}`, kind: step.kind, x: x(step.fromMs), width: Math.max(3, round(x(step.toMs) - x(step.fromMs))), planned: step.planned })),
    turns: bar.turns.filter((each) => each.atMs >= line.fromMs && each.atMs <= line.toMs).map((each, index) => ({ key: `${index} ${each.atMs}`, x: x(each.atMs), done: each.done })),
    due: next === undefined ? null : {
      x: dueFits ? lastX + 12 : width - RIGHT,
      text: fitText(next.text, dueFits ? width - RIGHT - lastX - 12 : DUE_WIDTH),
      overdue: next.overdue,
      anchor: dueFits ? 'start' : 'end',
    },
    turnDue: turn === undefined ? null : {
      x: turnFits ? lastX + 12 : RIGHT,
      top,
      atMs: turn.atMs,
      overdue: turn.atMs < line.nowMs,
      anchor: turnFits ? 'start' : 'end',
    },
  };
}

/** A due text cut to its room on the strip; whole in the list that is read aloud and in its place. */
function fitText(text: string, room: number): string {
  const letters = Math.floor(room / LETTER_PX);
  return text.length <= letters ? text : `${text.slice(0, Math.max(0, letters - 1)).trimEnd()}…`;
}

/** What is overdue first, then what is due soonest, then what began last. */
function urgency(bar: LineBar): number {
  const due = Math.min(...bar.dues.map((each) => (each.overdue ? 0 : each.atMs)), Number.MAX_SAFE_INTEGER);
  return due === Number.MAX_SAFE_INTEGER ? due - (bar.steps[0]?.fromMs ?? 0) / 1e6 : due;
}

function hourTicks(fromMs: number, toMs: number, hours: number): number[] {
  const ticks: number[] = [];
  const step = hours * HOUR_MS;
  for (let atMs = Math.ceil(fromMs / step) * step; atMs < toMs; atMs += step) ticks.push(atMs);
  return ticks;
}

/** Hours as the wall clock shows them; the first tick of a day says its date. */
function tickText(atMs: number, before: number | undefined, formats: Pick<Formats, 'clock' | 'moment'>): string {
  const day = (instant: number): string => formats.moment(instant).split(',')[0] ?? '';
  return before !== undefined && day(before) !== day(atMs) ? day(atMs) : formats.clock(atMs);
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
