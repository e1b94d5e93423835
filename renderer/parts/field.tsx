import { useId, type ReactNode } from 'react';

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly unit?: string;
  readonly help?: string;
  readonly fault?: string | null;
  /** `figure` sets a large right-aligned number with the keypad of a tablet. */
  readonly kind?: 'text' | 'figure' | 'date' | 'time' | 'password';
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
  onChange(value: string): void;
}

/** One typed entry with its label, its unit and, when it was refused, the sentence that says why. */
export function Field({ label, value, unit, help, fault = null, kind = 'text', placeholder, autoFocus = false, onChange }: FieldProps): ReactNode {
  const id = useId();
  const described = fault !== null ? `${id}-fault` : help !== undefined ? `${id}-help` : undefined;
  return (
    <div className={kind === 'figure' ? 'field figure' : 'field'} {...(fault === null ? {} : { 'data-faulty': '' })}>
      <label htmlFor={id}>{label}</label>
      <div className="box">
        <input
          id={id}
          type={kind === 'figure' ? 'text' : kind}
          {...(kind === 'password' ? { autoComplete: 'off' } : {})}
          {...(kind === 'figure' ? { inputMode: 'decimal' as const, autoComplete: 'off' } : {})}
          value={value}
          placeholder={placeholder}
          autoFocus={autoFocus}
          aria-invalid={fault !== null}
          aria-describedby={described}
          onChange={(event) => onChange(event.currentTarget.value)}
        />
        {unit === undefined ? null : <span className="unit">{unit}</span>}
      </div>
      {fault !== null ? <p className="fault" id={`${id}-fault`}>{fault}</p> : help !== undefined ? <p className="help" id={`${id}-help`}>{help}</p> : null}
    </div>
  );
}

interface PickProps {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly { readonly id: string; readonly text: string }[];
  readonly empty?: string;
  readonly fault?: string | null;
  onChange(id: string): void;
}

/** A long list to pick one from; the system's own list, which every tablet knows how to show. */
export function Pick({ label, value, choices, empty, fault = null, onChange }: PickProps): ReactNode {
  const id = useId();
  return (
    <div className="field" {...(fault === null ? {} : { 'data-faulty': '' })}>
      <label htmlFor={id}>{label}</label>
      <div className="box">
        <select id={id} value={value} aria-invalid={fault !== null} onChange={(event) => onChange(event.currentTarget.value)}>
          {empty === undefined ? null : <option value="">{empty}</option>}
          {choices.map((choice) => <option key={choice.id} value={choice.id}>{choice.text}</option>)}
        </select>
      </div>
      {fault === null ? null : <p className="fault">{fault}</p>}
    </div>
  );
}
