import { useState, type ReactNode } from 'react';
import { instantOf, localTime } from '../../app/measures/zone.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { words } from '../words/words.ts';
import { PressButton } from './button.tsx';
import { Field } from './field.tsx';

const DAY_MS = 86_400_000;

interface MomentProps {
  readonly label: string;
  /** The instant in UTC ms; null means “now, when it is sent”. */
  readonly value: number | null;
  readonly fault?: string | null;
  /** The time is unknown until it is typed: `value` gives only the day. */
  readonly typed?: boolean;
  /** It can't be later than this, so that a clock time past it means the day before. */
  readonly notAfterMs?: number | undefined;
  onChange(atMs: number | null): void;
}

/** When it happened: “now” unless the person says otherwise, in the kitchen's own zone. */
export function MomentField({ label, value, fault = null, typed: mustType = false, notAfterMs, onChange }: MomentProps): ReactNode {
  const { kitchen } = useKitchen();
  const [typed, setTyped] = useState(() => (value === null ? null : { ...localTime(value, kitchen.timeZone), ...(mustType ? { clock: '' } : {}) }));
  const [problem, setProblem] = useState<string | null>(null);
  if (typed === null) {
    return (
      <div className="field">
        <span className="label">{label}</span>
        <div className="row">
          <span className="strong">{words.parts.now}</span>
          <PressButton look="quiet" label={`${label}: ${words.parts.anotherTime}`} onPress={() => setTyped(localTime(Date.now(), kitchen.timeZone))}>
            {words.parts.anotherTime}
          </PressButton>
        </div>
        {fault === null ? null : <p className="fault">{fault}</p>}
      </div>
    );
  }
  const change = (day: string, clock: string): void => {
    setTyped({ day, clock });
    const read = instantOf(day, clock, kitchen.timeZone);
    setProblem(read.ok ? null : read.problem.message);
    if (!read.ok) return;
    const isDayBefore = notAfterMs !== undefined && read.value > notAfterMs && day === typed.day;
    if (isDayBefore) change(localTime(read.value - DAY_MS, kitchen.timeZone).day, clock);
    else onChange(read.value);
  };
  return (
    <div className="row">
      <Field label={label} kind="time" value={typed.clock} fault={problem ?? fault} onChange={(clock) => change(typed.day, clock)} />
      <Field label={words.parts.day} kind="date" value={typed.day} onChange={(day) => change(day, typed.clock)} />
    </div>
  );
}
