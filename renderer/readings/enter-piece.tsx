import { useEffect, useId, useRef, type ReactNode } from 'react';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import type { LastRead } from './enter-trend.ts';

const text = words.smokehouse.entry;
const quick = words.paper.entry;

interface EnterPieceProps {
  readonly name: string;
  readonly value: string;
  readonly last: LastRead | undefined;
  readonly isActive: boolean;
  readonly fault: string | null;
  onChange(value: string): void;
  onActive(): void;
  onEnter(): void;
}

/** One piece of a round: its last reading and trend, and the figure that is typed. The keypad stands beside it, so the tablet's own stays away. */
export function EnterPiece({ name, value, last, isActive, fault, onChange, onActive, onEnter }: EnterPieceProps): ReactNode {
  const id = useId();
  const formats = useFormats();
  const box = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (isActive) box.current?.focus();
  }, [isActive]);
  return (
    <div className={isActive ? 'field figure enter-piece active' : 'field figure enter-piece'} {...(fault === null ? {} : { 'data-faulty': '' })}>
      <label htmlFor={id}>{name}</label>
      <div className="box">
        <input
          ref={box} id={id} type="text" inputMode="none" autoComplete="off" value={value} aria-invalid={fault !== null} aria-describedby={`${id}-about`}
          onChange={(event) => onChange(event.currentTarget.value)} onFocus={onActive}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            onEnter();
          }}
        />
        <span className="unit">{formats.degreeSign}</span>
      </div>
      <p className={fault === null ? 'help' : 'fault'} id={`${id}-about`}>
        {fault ?? (last === undefined ? quick.notRead : `${text.last(formats.temperature(last.ticks), formats.clock(last.atMs))}${sayTrend(last, formats.degreeSign)}`)}
      </p>
    </div>
  );
}

const TICKS = { '°F': 5000, '°C': 9000 } as const;

function sayTrend({ ticksAnHour }: LastRead, degreeSign: string): string {
  if (ticksAnHour === null) return '';
  const degrees = ticksAnHour / (degreeSign === '°F' ? TICKS['°F'] : TICKS['°C']);
  if (Math.abs(degrees) < 0.5) return `; ${quick.steady}`;
  const figure = `${Math.abs(degrees).toFixed(Math.abs(degrees) < 10 ? 1 : 0)} ${degreeSign}`;
  return `; ${degrees > 0 ? quick.rises(figure) : quick.falls(figure)}`;
}
