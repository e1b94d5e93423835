/** Tracing: from anything that is known of a pack to all that it came from and all that became of it; complaints and ingredients' lots. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, InstantMs, Words } from './quantities.ts';
import { Complaint, IngredientLot } from './trace-shapes.ts';

/** What a trace can start from. The id of a supplier, an owner or a person is the name itself, that of a day YYYY-MM-DD. */
export const TraceStartKind = z.enum([
  'pack', 'batch', 'load', 'fish-lot', 'ingredient-lot', 'supplier', 'owner', 'guest', 'recipe', 'thermometer', 'person', 'day', 'complaint',
]);
export const TraceNodeKind = z.enum([
  'supplier', 'owner', 'fish-lot', 'ingredient-lot', 'recipe', 'batch', 'load', 'thermometer', 'pack', 'place', 'recipient', 'fate', 'complaint',
]);
const StartId = z.string().min(1).max(200);
export const TraceNode = z.strictObject({
  key: z.string(),
  kind: TraceNodeKind,
  id: z.string(),
  title: z.string(),
  facts: z.array(z.string()),
  /** `start`: asked for. `back`: it came from there. `forward`: it went there. `beside`: how it was made. */
  side: z.enum(['start', 'back', 'forward', 'beside']),
});
export const TraceHit = z.strictObject({ kind: TraceStartKind, id: z.string(), title: z.string(), detail: z.string() });

export const traceRequests = {
  /** What a typed or scanned text can mean. `exact`: the one thing whose whole code it is. */
  'trace.find': query(
    z.strictObject({ text: z.string().max(200) }),
    z.strictObject({ hits: z.array(TraceHit), exact: TraceHit.nullable(), remark: z.string() }),
  ),
  'trace.get': query(
    z.strictObject({ kind: TraceStartKind, id: StartId }),
    z.strictObject({
      title: z.string(),
      nodes: z.array(TraceNode),
      edges: z.array(z.strictObject({ from: z.string(), to: z.string() })),
      /** How many packs are in it; of a trace from a pack that one. */
      packs: z.int(),
    }),
  ),
  'complaint.list': query(z.strictObject({ batchId: Id.nullable() }), z.strictObject({ complaints: z.array(Complaint) })),
  'complaint.add': command(
    z.strictObject({
      batchId: Id, packId: Id.nullable(), atMs: InstantMs, fromName: Words, contact: z.string().trim().max(200), what: z.string().trim().min(1).max(1000),
    }),
    z.strictObject({ complaint: Complaint }),
  ),
  /** What came of it; said once. */
  'complaint.close': command(z.strictObject({ complaintId: Id, text: z.string().trim().min(1).max(1000) }), z.strictObject({ complaint: Complaint })),
  'ingredientLot.list': query(z.strictObject({}), z.strictObject({ lots: z.array(IngredientLot) })),
  'ingredientLot.receive': command(
    z.strictObject({ ingredientId: Id, lotCode: Words, supplierName: z.string().trim().max(120), receivedAtMs: InstantMs, inUse: z.boolean() }),
    z.strictObject({ lot: IngredientLot }),
  ),
  /** From now on brines are made of this lot; the one in use before is put by. False takes it out of use. */
  'ingredientLot.use': command(z.strictObject({ lotId: Id, inUse: z.boolean() }), z.strictObject({ lot: IngredientLot })),
  /** Mends which lot a batch's brine took: enters it or strikes it out. */
  'ingredientLot.correct': command(z.strictObject({ lotId: Id, batchId: Id, used: z.boolean(), why: Words }), z.strictObject({ lot: IngredientLot })),
} as const;

export type TraceStartKind = z.infer<typeof TraceStartKind>;
export type TraceNode = z.infer<typeof TraceNode>;
export type TraceHit = z.infer<typeof TraceHit>;
