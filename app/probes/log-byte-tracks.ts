/** The channels of a log as they come in its bytes, with what is remarked of their times. */
import type { TemperatureUnit } from '../measures/temperature.ts';
import { areSame } from './log-byte-cells.ts';
import { textOf } from './log-byte-lines.ts';
import { openByteSeries, type ByteSeries } from './log-byte-series.ts';
import { unitFromWord } from './log-cells.ts';

/** A channel of a long file, or all of a wide one. */
export interface ByteTrack {
  readonly name: Uint8Array;
  readonly series: readonly ByteSeries[];
  lastMs: number;
  lastAtMs: number;
  up: number;
  down: number;
  readonly backward: number[];
  readonly repeated: number[];
}

/** The channels of a long file; of a wide one there is one, without a name. */
export class ByteTracks {
  readonly all: ByteTrack[] = [];
  private readonly bytes: Uint8Array;
  private readonly readings: readonly number[];
  private readonly isLong: boolean;
  private readonly capacity: number;
  private last = 0;

  /** @param capacity how many readings of a channel, or of a column of a wide file, there is room for at first */
  constructor(bytes: Uint8Array, readings: readonly number[], isLong: boolean, capacity: number) {
    this.bytes = bytes;
    this.readings = readings;
    this.isLong = isLong;
    this.capacity = capacity;
    if (!isLong) this.open('');
  }

  /** The channel with the name that stands there; `undefined` where none does. They come round in turn: the next one is tried first. */
  at(from: number, to: number): ByteTrack | undefined {
    return this.all[this.indexAt(from, to)];
  }

  /** The place among all of the channel with the name that stands there; beyond them all where none does. */
  indexAt(from: number, to: number): number {
    const { all, bytes } = this;
    for (let step = 1; step <= all.length; step += 1) {
      const index = (this.last + step) % all.length;
      const track = all[index];
      if (track === undefined || !areSame(bytes, from, to, track.name, 0, track.name.length)) continue;
      this.last = index;
      return index;
    }
    if (from === to) return Infinity;
    this.open(textOf(bytes, from, to));
    return all.length - 1;
  }

  named(channel: string): ByteTrack {
    return this.all.find((track) => track.series[0]?.channel === channel) ?? this.open(channel);
  }

  private open(channel: string): ByteTrack {
    const { isLong, capacity } = this;
    const track: ByteTrack = {
      // A name with characters beyond ASCII is only ever asked for as a text.
      name: Uint8Array.from(channel, (character) => Math.min(character.charCodeAt(0), 255)),
      series: this.readings.map((column) => openByteSeries(isLong ? channel : undefined, column, capacity)),
      lastMs: Number.NaN, lastAtMs: Number.NaN, up: 0, down: 0, backward: [], repeated: [],
    };
    this.all.push(track);
    return track;
  }
}

/** Counts a channel's row: how its time stands to the one before. */
export function countTime(track: ByteTrack, ms: number, atMs: number, line: number): void {
  if (ms > track.lastMs) track.up += 1;
  else if (ms < track.lastMs) track.down += 1;
  if (atMs < track.lastAtMs) track.backward.push(line);
  else if (atMs === track.lastAtMs) track.repeated.push(line);
  track.lastMs = ms;
  track.lastAtMs = atMs;
}

/** Units as they stand in a column of their own: nearly always the same one. */
export class ByteUnits {
  private readonly bytes: Uint8Array;
  private unit: TemperatureUnit | undefined = undefined;
  private from = 0;
  private to = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  /** The unit that stands there, `undefined` for an empty cell, or `none` for another word. */
  at(from: number, to: number): TemperatureUnit | undefined | 'none' {
    if (from === to) return undefined;
    if (areSame(this.bytes, from, to, this.bytes, this.from, this.to)) return this.unit;
    const unit = unitFromWord(textOf(this.bytes, from, to));
    if (unit === undefined) return 'none';
    this.unit = unit;
    this.from = from;
    this.to = to;
    return unit;
  }
}
