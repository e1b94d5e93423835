/** Chance that can be had again: every number follows from one seed. */

const MOST = 2 ** 32;

/** A source of numbers, the same for the same seed (mulberry32, a public-domain generator of 32 bits). */
export class Dice {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** A whole number from `least` to `most`, both included. */
  whole(least: number, most: number): number {
    return least + Math.floor(this.next() * (most - least + 1));
  }

  /** True once in `among` times. */
  once(among: number): boolean {
    return this.whole(1, among) === 1;
  }

  /** One of the items; throws for none. */
  pick<T>(items: readonly T[]): T {
    const rest = items.slice(this.whole(0, items.length - 1));
    for (const item of rest) return item;
    throw new Error('nothing to pick from');
  }

  /** The items in another order. */
  shuffle<T>(items: readonly T[]): T[] {
    return items.map((item) => ({ item, place: this.next() })).sort((left, right) => left.place - right.place).map(({ item }) => item);
  }

  private next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / MOST;
  }
}

/** The seed of one case: differs by kind and by number. */
export function caseSeed(kindName: string, runSeed: number, number: number): number {
  let seed = runSeed >>> 0;
  for (const letter of `${kindName} ${number}`) seed = (Math.imul(seed ^ (letter.codePointAt(0) ?? 0), 0x01000193) + 0x9e3779b9) >>> 0;
  return seed;
}
