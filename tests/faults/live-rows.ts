/** Live readings of some points, sent in numbered messages; what each message holds is known from its number alone. */
import type { LiveReadings, KeptReading } from '../../main/backroom/room.ts';

export const POINTS = Array.from({ length: 8 }, (_, index) => `point-${index}`);
/** After so many messages the point of the last one is closed. */
export const MESSAGES_A_CLOSE = 25;
const FIRST_MS = Date.UTC(2020, 0, 1);

export interface Message {
  readonly about: LiveReadings;
  readonly rows: readonly KeptReading[];
}

/** Every second message has readings of two points, which come or are lost together. */
export function pointsOf(number: number): readonly number[] {
  return number % 2 === 0 ? [number % POINTS.length] : [number % POINTS.length, (number + 3) % POINTS.length];
}

export function rowsOf(number: number): number {
  return 1 + ((number * 7) % 40);
}

/** The reading of a point at a place in its series. */
export function liveAt(point: number, place: number): { readonly atMs: number; readonly ticks: number } {
  return { atMs: FIRST_MS + place * 250, ticks: 900 * (300 + ((point * 13 + place * 3) % 500)) };
}

/** How many readings each point has before a message. */
export function placesBefore(number: number): number[] {
  const places = POINTS.map(() => 0);
  for (let earlier = 0; earlier < number; earlier += 1) for (const point of pointsOf(earlier)) places[point] = (places[point] ?? 0) + rowsOf(earlier);
  return places;
}

/** What a message holds. @param places how many readings each point has before it */
export function messageOf(number: number, places: readonly number[]): Message[] {
  return pointsOf(number).map((point) => ({
    about: { pointId: POINTS[point] ?? '', instrumentId: null, source: 'feed', unit: 'C' },
    rows: Array.from({ length: rowsOf(number) }, (_, index): KeptReading => {
      const { atMs, ticks } = liveAt(point, (places[point] ?? 0) + index);
      return { atMs, lowTicks: ticks, highTicks: ticks, text: (ticks / 9000).toFixed(1) };
    }),
  }));
}
