/** The steps of the demonstration kitchen with every round of readings as a step of its own, in the order they happened. */
import type { DemoDailyRounds, DemoRounds, DemoStep } from '../../../../app/contract/assets-demo.ts';
import { momentMs } from './moments.ts';

export interface TimedStep {
  readonly atMs: number;
  readonly by: string;
  readonly ask: DemoStep['ask'];
  readonly input: unknown;
  readonly keep?: string | undefined;
}

export interface DemoHistory {
  readonly steps: readonly DemoStep[];
  readonly rounds: readonly DemoRounds[];
  readonly daily: readonly DemoDailyRounds[];
}

const MINUTE_MS = 60_000;

/** Everything up to `nowMs`, earliest first; steps of one instant stay in the order of the data, requests before readings. */
export function stepsInOrder(history: DemoHistory, nowMs: number, timeZone: string): TimedStep[] {
  const all = [
    ...history.steps.map(({ at, by, ask, input, keep }) => ({ atMs: momentMs(at, nowMs, timeZone), by, ask, input, keep })),
    ...history.rounds.flatMap((rounds) => roundSteps(rounds, momentMs(rounds.from, nowMs, timeZone))),
    ...history.daily.flatMap((daily) => dailySteps(daily, nowMs, timeZone)),
  ];
  return all.filter((step) => step.atMs <= nowMs).toSorted((one, other) => one.atMs - other.atMs);
}

function roundSteps(rounds: DemoRounds, fromMs: number): TimedStep[] {
  return rounds.rows.map(([minutes, ...values]) => {
    const atMs = fromMs + minutes * MINUTE_MS;
    const readings = rounds.points.flatMap(({ point, instrument }, index) => {
      const text = values[index] ?? null;
      return text === null ? [] : [reading(point, instrument, text, atMs)];
    });
    return readingStep(rounds.by, atMs, readings);
  });
}

function dailySteps(daily: DemoDailyRounds, nowMs: number, timeZone: string): TimedStep[] {
  const days = Array.from({ length: daily.fromDaysAgo + 1 }, (_, index) => daily.fromDaysAgo - index);
  return days.flatMap((daysAgo) => daily.clocks.map((clock) => momentMs({ daysAgo, clock }, nowMs, timeZone))).map((atMs, index) => {
    const text = daily.values[index % daily.values.length] ?? '';
    return readingStep(daily.by, atMs, [reading(daily.point, daily.instrument, text, atMs)]);
  });
}

function reading(point: string, instrument: string | null, text: string, atMs: number): Readonly<Record<string, unknown>> {
  return { pointId: `@${point}`, atMs, value: { text, unit: 'F' }, instrumentId: instrument === null ? null : `@${instrument}` };
}

function readingStep(by: string, atMs: number, readings: readonly Readonly<Record<string, unknown>>[]): TimedStep {
  return { atMs, by, ask: 'readings.enter', input: { how: 'by-hand', readings } };
}
