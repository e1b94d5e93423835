import { useState, type ReactNode } from 'react';
import type { Input } from '../../app/contract/contract.ts';
import { PressButton } from '../parts/button.tsx';
import { useFormats } from '../parts/format.ts';
import { MomentField } from '../parts/moment-field.tsx';
import { words } from '../words/words.ts';

const text = words.smokehouse.importing;
const MINUTE_MS = 60_000;

export type LoggerClock = NonNullable<Input<'readings.import'>['loggerClock']>;

interface ImportClockProps {
  readonly clock: LoggerClock | null;
  /** Null where nobody compared the clocks. */
  onChange(clock: LoggerClock | null): void;
}

/** What the logger's own clock shows beside this one's, to the minute: its readings are moved by the difference. */
export function ImportClock({ clock, onChange }: ImportClockProps): ReactNode {
  const formats = useFormats();
  const [atMs, setAtMs] = useState(wholeMinute);
  const [isTyping, setTyping] = useState(false);
  if (!isTyping) {
    return (
      <div className="row">
        <p>{text.clockAsk(formats.clock(atMs))}</p>
        <PressButton
          look="quiet"
          onPress={() => {
            setAtMs(wholeMinute());
            setTyping(true);
          }}
        >
          {text.clockDiffers}
        </PressButton>
      </div>
    );
  }
  const minutes = clock === null ? null : Math.round((clock.atMs - clock.showsMs) / MINUTE_MS);
  return (
    <section className="stack">
      <p>{text.clockAsk(formats.clock(atMs))}</p>
      <MomentField
        label={text.clockShows}
        value={atMs}
        typed
        onChange={(showsMs) => onChange(showsMs === null ? null : { showsMs, atMs: wholeMinute() })}
      />
      {minutes === null ? null : <p className="strong">{minutes === 0 ? text.notMoved : text.moved(minutes)}</p>}
      <div className="row">
        <PressButton
          look="quiet"
          onPress={() => {
            setTyping(false);
            onChange(null);
          }}
        >
          {text.clockAgrees}
        </PressButton>
      </div>
    </section>
  );
}

function wholeMinute(): number {
  return Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS;
}
