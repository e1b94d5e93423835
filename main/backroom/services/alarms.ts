/** Alarms: found whenever they are asked for, and acknowledged by name. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Alarm } from '../../../app/contract/requests/alarms.ts';
import { quietUntilMs } from '../../../app/probes/alarm-quiet.ts';
import type { StoredLoad } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { findAlarms, type FoundAlarm } from './alarm-finding.ts';

export const alarmServices = {
  'alarms.list': (room: BookRoom, { loadId }: Parsed<'alarms.list'>): Output<'alarms.list'> => {
    const loads = room.book.shelf('loads');
    const asked = loadId === null ? loads.all() : [loads.need(loadId)];
    const running = asked.filter((load) => load.inAtMs !== null && load.cooledAtMs === null);
    return { running: running.length, alarms: running.flatMap((load) => findAlarms(room, load).map((found) => wire(room, load, found))), nowMs: room.clock.nowMs() };
  },
  'alarms.acknowledge': (room: BookRoom, { loadId, key }: Parsed<'alarms.acknowledge'>): Output<'alarms.acknowledge'> => ({ alarm: acknowledge(room, room.book.shelf('loads').need(loadId), key) }),
} satisfies Services<'alarms.list' | 'alarms.acknowledge'>;

/** @throws Refusal NOT_FOUND where that alarm is over */
function acknowledge(room: BookRoom, load: StoredLoad, key: string): Alarm {
  const found = findAlarms(room, load).find((alarm) => alarm.key === key);
  if (found === undefined) throw new Refusal('NOT_FOUND', 'That alarm is over.', { remedy: 'Nothing needs to be done about it any more; the record shows what was read.' });
  const person = actingPerson(room);
  const seen = {
    id: room.newId(), loadId: load.id, key, kind: found.kind, pointId: found.pointId, text: found.text, level: found.level,
    atMs: room.clock.nowMs(), initials: person.initials, personId: person.id,
  };
  room.book.shelf('alarms').put(seen);
  room.book.record({ kind: 'alarm.acknowledge', subjectId: load.id, happenedAtMs: seen.atMs, summary: `${person.initials} has seen the alarm of load ${load.number}: ${found.text}`, after: seen });
  room.changed('load', [load.id]);
  return wire(room, load, found);
}

function wire(room: BookRoom, load: StoredLoad, { key, pointId, kind, level, text, ground }: FoundAlarm): Alarm {
  const seen = room.book.shelf('alarms').where('loadId', load.id).findLast((one) => one.key === key);
  return {
    key, loadId: load.id, loadNumber: load.number, pointId, kind, text, ground,
    acknowledgedBy: seen?.initials ?? null, acknowledgedAtMs: seen?.atMs ?? null,
    quietUntilMs: quietUntilMs(level, seen, room.clock.nowMs()),
  };
}
