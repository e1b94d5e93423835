/** A trace from one thing of the book to both ends, with what each thing is called. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { TraceNode, TraceStartKind } from '../../../app/contract/requests/trace.ts';
import { type Trace, walkTrace } from '../../../app/packs/trace.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { inTurns } from './in-turns.ts';
import { findTraces } from './trace-find.ts';
import { openTraceShelf, type Starts, traceSource, type TraceShelf } from './trace-source.ts';
import { startsOf } from './trace-starts.ts';
import { describe } from './trace-words.ts';

export const traceServices = { 'trace.find': findTraces, 'trace.get': getTrace } satisfies Services<'trace.find' | 'trace.get'>;

interface FullTrace {
  readonly starts: Starts;
  readonly trace: Trace<TraceNode['kind']>;
  readonly shelf: TraceShelf;
}

async function getTrace(room: BookRoom, { kind, id }: Parsed<'trace.get'>): Promise<Output<'trace.get'>> {
  const { starts, trace, shelf } = await inTurns(traceOf(room, kind, id));
  const nodes = await inTurns(describeAll(room, shelf, trace));
  return { title: starts.title, nodes, edges: [...trace.edges], packs: nodes.filter((node) => node.kind === 'pack').length };
}

/** The walk itself, for whoever drives it. */
export function* traceOf(room: BookRoom, kind: TraceStartKind, id: string): Generator<undefined, FullTrace> {
  const shelf = openTraceShelf(room);
  const starts = yield* startsOf(room, shelf, kind, id);
  return { starts, trace: yield* walkTrace(starts.refs, traceSource(room, shelf)), shelf };
}

function* describeAll(room: BookRoom, shelf: TraceShelf, trace: FullTrace['trace']): Generator<undefined, TraceNode[]> {
  const nodes: TraceNode[] = [];
  for (const { ref, key, side } of trace.found) {
    nodes.push({ key, kind: ref.kind, id: ref.id, side, ...describe(room, shelf, ref) });
    yield;
  }
  return nodes;
}
