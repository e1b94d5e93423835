import type { ReactNode } from 'react';
import type { Alarm } from '../../../app/contract/requests/alarms.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { useAlarms } from './alarm-asking.ts';
import { setSound, useSoundOn } from './alarm-sound.ts';
import './alarm.css';

const text = words.alarms;

/** At the top of a running load: what is wrong now, on what ground, and who has seen it. */
export function AlarmBar({ loadId }: { readonly loadId: string }): ReactNode {
  const answer = useAlarms();
  const acknowledge = useCommand('alarms.acknowledge');
  const isSoundOn = useSoundOn();
  if (answer === undefined) return null;
  const alarms = answer.alarms.filter((alarm) => alarm.loadId === loadId);
  return (
    <section className={alarms.length === 0 ? 'alarm-bar' : 'alarm-bar raised'} aria-label={text.title}>
      {alarms.length === 0 ? <p className="soft">{text.none}</p> : (
        <div role="alert">
          <ul>
            {alarms.map((alarm) => <AlarmLine key={alarm.key} alarm={alarm} isBusy={acknowledge.busy} onSeen={() => { void acknowledge.send({ loadId, key: alarm.key }); }} />)}
          </ul>
        </div>
      )}
      <ProblemNote failure={acknowledge.failure} />
      <PressButton look="quiet" onPress={() => setSound(!isSoundOn)}>{isSoundOn ? text.soundOff : text.soundOn}</PressButton>
    </section>
  );
}

interface AlarmLineProps {
  readonly alarm: Alarm;
  readonly isBusy: boolean;
  onSeen(): void;
}

function AlarmLine({ alarm, isBusy, onSeen }: AlarmLineProps): ReactNode {
  const formats = useFormats();
  const { acknowledgedBy, acknowledgedAtMs, quietUntilMs } = alarm;
  const kind = text.kinds[alarm.kind];
  return (
    <li className={quietUntilMs === null ? 'alarm' : 'alarm quiet'}>
      <svg width="26" height="24" viewBox="0 0 26 24" aria-hidden="true">
        <path d="M13 2L25 22H1z" fill={quietUntilMs === null ? 'var(--hold)' : 'none'} stroke="var(--hold)" strokeWidth="2" strokeLinejoin="round" />
        <path d="M13 9v6m0 2.4v2.4" stroke={quietUntilMs === null ? 'var(--sheet)' : 'var(--hold)'} strokeWidth="2.4" />
      </svg>
      <div>
        <b>{kind}.</b> {alarm.text}
        <p className="soft small">
          {alarm.ground}
          {acknowledgedBy === null || acknowledgedAtMs === null ? null : ` ${text.seenBy(acknowledgedBy, formats.clock(acknowledgedAtMs))} ${quietUntilMs === null ? text.again : text.quiet(formats.clock(quietUntilMs))}`}
        </p>
      </div>
      {quietUntilMs === null ? <PressButton label={text.seenLabel(kind, alarm.text)} isDisabled={isBusy} onPress={onSeen}>{text.seen}</PressButton> : null}
    </li>
  );
}
