/** Alarms while a load runs: what is wrong now, on what ground, and who has seen it. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id, InstantMs } from './quantities.ts';

export const AlarmKind = z.enum(['piece-too-slow', 'chamber-drifting', 'probe-silent', 'round-overdue', 'cooling-too-slow']);
export const Alarm = z.strictObject({
  /** Names what is wrong and where: the same for as long as it lasts. */
  key: z.string().min(1).max(120),
  loadId: Id,
  loadNumber: z.int(),
  pointId: Id.nullable(),
  kind: AlarmKind,
  text: z.string(),
  /** On what it rests. */
  ground: z.string(),
  /** The last person who acknowledged it, and when. */
  acknowledgedBy: z.string().nullable(),
  acknowledgedAtMs: InstantMs.nullable(),
  /** Until when it makes no sound; null where it sounds. */
  quietUntilMs: InstantMs.nullable(),
});
/** That somebody has seen an alarm, as it was then. */
export const AlarmSeen = z.strictObject({
  id: Id, loadId: Id, key: z.string(), kind: AlarmKind, pointId: Id.nullable(), text: z.string(), level: z.int(),
  atMs: InstantMs, initials: z.string(), personId: Id,
});

export const alarmRequests = {
  /** Of one load, or with null of every load that runs; the worst first. */
  'alarms.list': query(z.strictObject({ loadId: Id.nullable() }), z.strictObject({
    alarms: z.array(Alarm),
    /** How many loads are in, or cooling. */
    running: z.int().nonnegative(),
    nowMs: InstantMs,
  })),
  /** By the person on duty; it is quiet for a while, and sounds again then or when it gets worse. */
  'alarms.acknowledge': command(z.strictObject({ loadId: Id, key: z.string().min(1).max(120) }), z.strictObject({ alarm: Alarm })),
} as const;

export type Alarm = z.infer<typeof Alarm>;
export type AlarmSeen = z.infer<typeof AlarmSeen>;
