import { useEffect, type ReactNode } from 'react';
import { keepAwake } from '../../bridge/bridge.ts';
import { addressOf } from '../../frame/address.ts';
import { words } from '../../words/words.ts';
import { useAlarms } from './alarm-asking.ts';
import { useBeeping } from './alarm-sound.ts';
import './alarm.css';

/** Under the line of every place: the loads with an alarm. Sounds where that was allowed, and keeps the computer awake while a load runs. */
export function AlarmStrip(): ReactNode {
  const answer = useAlarms();
  const alarms = answer?.alarms ?? [];
  const isRunning = (answer?.running ?? 0) > 0;
  useBeeping(alarms.some((alarm) => alarm.quietUntilMs === null));
  useEffect(() => {
    if (!isRunning) return undefined;
    void keepAwake(true);
    return () => { void keepAwake(false); };
  }, [isRunning]);
  if (alarms.length === 0) return null;
  const loads = [...new Map(alarms.map((alarm) => [alarm.loadId, alarm.loadNumber]))];
  return (
    <ul className="alarm-strip" aria-label={words.alarms.title}>
      {loads.map(([loadId, number]) => (
        <li key={loadId}><a href={addressOf('smokehouse', loadId)}>{words.alarms.onLine(number, alarms.filter((alarm) => alarm.loadId === loadId).length)}</a></li>
      ))}
    </ul>
  );
}
