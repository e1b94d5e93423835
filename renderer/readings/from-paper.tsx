import type { ReactNode } from 'react';
import { Choices } from '../parts/choices.tsx';
import { Field } from '../parts/field.tsx';
import { words } from '../words/words.ts';

const text = words.smokehouse.entry;
const quick = words.paper.entry;

/** Whether something was written on paper first, and on which sheet. */
export interface PaperAnswer {
  readonly isPaper: boolean;
  readonly sheet: string;
}

export const NO_PAPER: PaperAnswer = { isPaper: false, sheet: '' };

/** As a command of the soak takes it. */
export function paperInput({ isPaper, sheet }: PaperAnswer): { fromPaper?: true; sheet?: string } {
  return isPaper ? { fromPaper: true, ...(sheet.trim() === '' ? {} : { sheet: sheet.trim() }) } : {};
}

interface FromPaperProps {
  readonly answer: PaperAnswer;
  readonly fault: string | null;
  onChange(answer: PaperAnswer): void;
}

/** Folded away until it is wanted; open while it is answered. */
export function FromPaper({ answer, fault, onChange }: FromPaperProps): ReactNode {
  return (
    <details className="fold">
      <summary>{quick.copied}</summary>
      <div className="row">
        <Choices label={text.how} value={answer.isPaper ? 'paper' : 'hand'} choices={[{ id: 'hand', text: text.byHand }, { id: 'paper', text: text.fromPaper }]} onChange={(how) => onChange({ ...answer, isPaper: how === 'paper' })} />
        {answer.isPaper ? <Field label={quick.sheet} value={answer.sheet} help={quick.bothTimes} fault={fault} onChange={(sheet) => onChange({ ...answer, sheet })} /> : null}
      </div>
    </details>
  );
}
