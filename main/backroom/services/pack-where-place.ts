/** What the judge says of a cold place's own record of the last days: the checks that its packs' store is held to. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Place } from '../../../app/contract/requests/office.ts';
import { aloneContext, judgeCheck } from '../../../app/limits/judge.ts';
import type { JudgeCase } from '../../../app/limits/judge-case.ts';
import { findCheck } from '../../../app/limits/limit-set.ts';
import type { BookRoom } from '../room.ts';
import { errorOf } from './instrument-checks.ts';
import { fillPoint } from './judging/point-plan.ts';
import { type ReadingsAt, readOnce } from './judging/points.ts';
import { evidenceOf } from './judging/reading-evidence.ts';
import { instrumentsIn, type PointPlan, readingsWithin } from './judging/taken-readings.ts';
import { wordsIn } from './judging/judge-batch.ts';
import { kitchenOf } from './kitchen.ts';
import { limitsOf } from './own-set-book.ts';
import { differenceTicks } from '../../../app/measures/temperature.ts';
import { localDay } from '../../../app/measures/zone.ts';

/** As far back as a shelf is looked at on the page (our choice). */
const LOOK_BACK_MS = 7 * 86_400_000;
const CHECKS = { cooler: ['STORE-38'], freezer: ['FROZEN-0F'], 'brining-room': [] } as const;
/** What a thermometer that nobody named is taken to be off by (common practice). */
const UNKNOWN_ERROR_TICKS = differenceTicks(2, 'F');

/** The place judged alone, as if packs had lain in it the whole time; its record goes on. */
export function placeVerdict(room: BookRoom, { placeId }: Parsed<'place.verdict'>): Output<'place.verdict'> {
  const place = room.book.shelf('places').need(placeId);
  const readingsAt = readOnce(room);
  const sinceMs = room.clock.nowMs() - LOOK_BACK_MS;
  // A record that began within these days is judged from where it begins.
  const first = readingsAt(place.id)[0]?.atMs ?? sinceMs;
  const fromMs = Math.max(sinceMs, first);
  return { placeName: place.name, kind: place.kind, fromMs, checks: judgePlace(room, place, { fromMs }, readingsAt) };
}

/** A cold place by its own record within a span, as if packs had lain in it that whole time. Without an end the record goes on. */
export function judgePlace(room: BookRoom, place: Place, { fromMs, toMs }: { readonly fromMs: number; readonly toMs?: number }, readingsAt: ReadingsAt = readOnce(room)): Output<'place.verdict'>['checks'] {
  const taken = { pointId: place.id, fromMs, ...(toMs === undefined ? {} : { toMs }) };
  const plan: PointPlan = { id: place.id, name: place.name, role: 'store', record: 'store', taken, typed: [] };
  const evidence = evidenceOf(room, [plan], readingsAt);
  const span = { inMs: fromMs, outMs: toMs, open: toMs === undefined };
  const errors = [...instrumentsIn(readingsWithin(taken, readingsAt))].map((id) => {
    const instrument = id === null ? undefined : room.book.shelf('instruments').get(id);
    return instrument === undefined ? UNKNOWN_ERROR_TICKS : errorOf(room.book, instrument, 'cold').ticks;
  });
  const judged: JudgeCase = {
    process: 'hot', pack: 'vacuum', store: place.kind === 'freezer' ? 'frozen' : 'refrigerated', points: [fillPoint(plan, readingsAt, evidence)],
    records: { process: { open: true }, soak: { open: true }, freezer: span, store: span }, chilledMs: fromMs, errorTicks: Math.max(0, ...errors), saltSamples: [],
  };
  const { timeZone, temperatureUnit } = kitchenOf(room.book);
  const words = wordsIn({ timeZone, temperatureUnit, usualDay: localDay(room.clock.nowMs(), timeZone) });
  const limits = limitsOf(room);
  return CHECKS[place.kind].flatMap((id) => {
    const check = findCheck(limits, id);
    if (check === undefined) return [];
    const { verdict, reason } = judgeCheck(check, judged, aloneContext(limits, words));
    const [source] = check.sources;
    return [{ checkId: id, title: check.title, verdict, reason, source: source === undefined ? '' : `${source.publisher}, ${source.title}`, mark: source?.mark ?? ('common practice' as const) }];
  });
}
