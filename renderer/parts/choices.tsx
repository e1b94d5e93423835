import { Label, Radio, RadioGroup, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { ReactNode } from 'react';

interface Choice<T extends string> {
  readonly id: T;
  readonly text: string;
}
interface ChoicesProps<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly choices: readonly Choice<T>[];
  readonly fault?: string | null;
  onChange(value: NoInfer<T>): void;
}

/** A few choices side by side, one tap each. */
export function Choices<T extends string>({ label, value, choices, fault = null, onChange }: ChoicesProps<T>): ReactNode {
  return (
    <RadioGroup className="field" value={value} onChange={(next) => onChange(next as T)}>
      <Label className="label soft small">{label}</Label>
      <div className="choices">
        {choices.map((choice) => <Radio key={choice.id} value={choice.id} className="choice">{choice.text}</Radio>)}
      </div>
      {fault === null ? null : <p className="fault">{fault}</p>}
    </RadioGroup>
  );
}

interface SeveralProps {
  readonly label: string;
  readonly values: readonly string[];
  readonly choices: readonly { readonly id: string; readonly text: ReactNode }[];
  onChange(values: readonly string[]): void;
}

/** Choices of which several may be on. */
export function Several({ label, values, choices, onChange }: SeveralProps): ReactNode {
  return (
    <ToggleButtonGroup
      aria-label={label}
      className="choices"
      selectionMode="multiple"
      selectedKeys={values}
      onSelectionChange={(keys) => onChange([...keys].map(String))}
    >
      {choices.map((choice) => <ToggleButton key={choice.id} id={choice.id} className="choice">{choice.text}</ToggleButton>)}
    </ToggleButtonGroup>
  );
}
