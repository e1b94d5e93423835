/** Wall time to instants in a named zone, with its clock changes. */
import { Temporal } from 'temporal-polyfill';
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { DAY_MS } from './log-moments.ts';

/** The instants a wall time can mean: one; two, when the clock was put back over it; none, when it was put forward over it. */
export type WallMeaning =
  | { readonly kind: 'one'; readonly atMs: number }
  | { readonly kind: 'repeated'; readonly earlierMs: number; readonly laterMs: number }
  | { readonly kind: 'skipped' };

export interface LogZone {
  readonly name: string;
  readonly meaningOf: (wallMs: number) => WallMeaning;
  /** Milliseconds east of UTC at an instant. */
  readonly offsetMsAt: (atMs: number) => number;
}

interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
  readonly offsetMs: number;
}

const FIXED_OFFSET = /^[+-](?:0\d|1[0-8]):[0-5]\d$/;
const REGION = /^[A-Za-z_]+(?:\/[A-Za-z0-9_+-]+){1,2}$/;

/**
 * Opens a zone by its IANA name (`America/Anchorage`), `UTC`, or a fixed offset (`-08:00`).
 * Abbreviations such as `EST` are refused: they name no clock changes, and some name several zones.
 * @param field the input key to name in a problem
 */
export function openZone(name: string, field: string): Outcome<LogZone> {
  const trimmed = name.trim();
  const known = trimmed === 'UTC' || FIXED_OFFSET.test(trimmed) || REGION.test(trimmed);
  try {
    if (known) {
      Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(trimmed);
      return good(zoneFrom(trimmed));
    }
  } catch (thrown) {
    if (!(thrown instanceof RangeError)) throw thrown;
  }
  return bad(`“${trimmed.slice(0, 40)}” is not a time zone.`, field, 'Write it as region and city, such as America/Anchorage.');
}

function zoneFrom(name: string): LogZone {
  // A zone keeps one offset for months: whole stretches are remembered, not single hours.
  const stretches: Stretch[] = [];
  let last: Stretch = { fromMs: 0, toMs: 0, offsetMs: 0 };
  function offsetMsAt(atMs: number): number {
    if (atMs >= last.fromMs && atMs < last.toMs) return last.offsetMs;
    const known = stretches.find((each) => atMs >= each.fromMs && atMs < each.toMs);
    last = known ?? stretchAt(name, atMs);
    if (known === undefined) stretches.push(last);
    return last.offsetMs;
  }
  function meaningOf(wallMs: number): WallMeaning {
    const before = offsetMsAt(wallMs - DAY_MS);
    const after = offsetMsAt(wallMs + DAY_MS);
    if (before === after) return { kind: 'one', atMs: wallMs - before };
    const byBefore = wallMs - before;
    const byAfter = wallMs - after;
    const beforeHolds = offsetMsAt(byBefore) === before;
    const afterHolds = offsetMsAt(byAfter) === after;
    if (beforeHolds && afterHolds) return { kind: 'repeated', earlierMs: byBefore, laterMs: byAfter };
    if (!beforeHolds && !afterHolds) return { kind: 'skipped' };
    return { kind: 'one', atMs: beforeHolds ? byBefore : byAfter };
  }
  return { name, meaningOf, offsetMsAt };
}

function stretchAt(name: string, atMs: number): Stretch {
  const moment = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(name);
  return {
    // A millisecond later: a change at this very instant is this stretch's own beginning.
    fromMs: moment.add({ milliseconds: 1 }).getTimeZoneTransition('previous')?.epochMilliseconds ?? -Infinity,
    toMs: moment.getTimeZoneTransition('next')?.epochMilliseconds ?? Infinity,
    offsetMs: moment.offsetNanoseconds / 1e6,
  };
}
