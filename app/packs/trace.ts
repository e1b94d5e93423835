/**
 * Tracing fish: two walks over what came from what. The book is asked for the neighbours of one thing at a time, so that a
 * trace touches what it shows and nothing else.
 */

/** Something in a trace, by its kind and its id. */
export interface TraceRef<K extends string = string> {
  readonly kind: K;
  readonly id: string;
}

/** Whom the walks ask. Every list is in the order it is to be shown. */
export interface TraceSource<K extends string = string> {
  /** What this came from. */
  before(ref: TraceRef<K>): readonly TraceRef<K>[];
  /** What came of this. */
  after(ref: TraceRef<K>): readonly TraceRef<K>[];
  /** How this was made: shown with it, and walked no further than to what stands beside that. */
  beside(ref: TraceRef<K>): readonly TraceRef<K>[];
}

export type TraceSide = 'start' | 'back' | 'forward' | 'beside';

export interface TraceEdge {
  /** Keys of the things; fish, or what it lay in, goes from the first to the second. */
  readonly from: string;
  readonly to: string;
}

export interface Trace<K extends string = string> {
  /** Each thing once, those it started from first; `forward` where it lies both ways. */
  readonly found: readonly { readonly ref: TraceRef<K>; readonly key: string; readonly side: TraceSide }[];
  readonly edges: readonly TraceEdge[];
}

/** What tells one thing of a trace from all others. */
export function keyOf({ kind, id }: TraceRef): string {
  return `${kind}:${id}`;
}

/**
 * Walks back to the first source and forward to the last hand, from everything given.
 * Yields once for each thing it looked at, so that whoever drives it may pause; the return value is the trace.
 * Back and forward never mix: what else became of a source is found by starting there.
 */
export function* walkTrace<K extends string>(starts: readonly TraceRef<K>[], source: TraceSource<K>): Generator<undefined, Trace<K>> {
  const found = new Map<string, { readonly ref: TraceRef<K>; readonly key: string; readonly side: TraceSide }>();
  const edges = new Map<string, TraceEdge>();
  const reach = (ref: TraceRef<K>, side: TraceSide): boolean => {
    const key = keyOf(ref);
    const known = found.get(key);
    // What came of one start and went into another is forward all the same: a recall takes what lies there.
    if (known === undefined || (known.side === 'back' && side === 'forward')) found.set(key, { ref, key, side });
    return known === undefined;
  };
  const join = (from: TraceRef<K>, to: TraceRef<K>): void => {
    const edge = { from: keyOf(from), to: keyOf(to) };
    edges.set(`${edge.from}>${edge.to}`, edge);
  };
  for (const start of starts) reach(start, 'start');
  for (const side of ['back', 'forward'] as const) {
    const seen = new Set(starts.map(keyOf));
    const waiting = [...starts];
    // It grows while it is gone through.
    for (const ref of waiting) {
      for (const next of side === 'back' ? source.before(ref) : source.after(ref)) {
        if (side === 'back') join(next, ref);
        else join(ref, next);
        reach(next, side);
        if (seen.has(keyOf(next))) continue;
        seen.add(keyOf(next));
        waiting.push(next);
      }
      yield;
    }
  }
  const waiting = [...found.values()].map(({ ref }) => ref);
  for (const ref of waiting) {
    for (const next of source.beside(ref)) {
      join(ref, next);
      if (reach(next, 'beside')) waiting.push(next);
    }
    yield;
  }
  return { found: [...found.values()], edges: [...edges.values()] };
}

/** Drives a walk to its end without a pause. */
export function finishTrace<K extends string>(walk: Generator<undefined, Trace<K>>): Trace<K> {
  let step = walk.next();
  while (step.done !== true) step = walk.next();
  return step.value;
}
