import { useState, type ReactNode } from 'react';
import type { LabelChoiceDraft } from '../../../app/contract/requests/label-choice.ts';
import type { Failure } from '../../../app/contract/envelope.ts';
import { AskFailure, chooseFile } from '../../bridge/bridge.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.labels.office;
type Mark = LabelChoiceDraft['mark'];

interface LabelMarkFieldProps {
  readonly mark: Mark;
  readonly fault: string | null;
  onChange(mark: Mark): void;
}

/** The kitchen's mark: none, a line of text, or a picture that is taken into the book. */
export function LabelMarkField({ mark, fault, onChange }: LabelMarkFieldProps): ReactNode {
  const [failure, setFailure] = useState<Failure | null>(null);
  const [fileName, setFileName] = useState<string | null>(null);
  const choosePicture = async (): Promise<void> => {
    setFailure(null);
    try {
      const taken = await chooseFile('.png');
      if (taken === null) return;
      setFileName(taken.fileName);
      onChange({ kind: 'picture', fileId: taken.fileId });
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setFailure(thrown.failure);
    }
  };
  const choose = (kind: Mark['kind']): void => {
    if (kind === 'picture') void choosePicture();
    else onChange(kind === 'text' ? { kind, text: '' } : { kind });
  };
  return (
    <div className="field stack">
      <Choices label={text.mark} value={mark.kind} choices={(['none', 'text', 'picture'] as const).map((id) => ({ id, text: text.marks[id] }))} onChange={choose} />
      {mark.kind === 'text' ? <Field label={text.markText} value={mark.text} fault={fault} onChange={(typed) => onChange({ kind: 'text', text: typed })} /> : null}
      {mark.kind === 'picture' ? (
        <div className="row">
          <span>{fileName === null ? text.pictureKept : text.pictureChosen(fileName)}</span>
          <PressButton onPress={() => { void choosePicture(); }}>{text.choosePicture}</PressButton>
        </div>
      ) : null}
      {mark.kind === 'picture' && fault !== null ? <p className="fault">{fault}</p> : null}
      <ProblemNote failure={failure} />
    </div>
  );
}
