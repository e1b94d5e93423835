import { useState, type ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import type { Point } from '../../app/contract/requests/smokehouse.ts';
import { PressButton } from '../parts/button.tsx';
import { Choices } from '../parts/choices.tsx';
import { Field, Pick } from '../parts/field.tsx';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';
import { instrumentChoices } from './import-instruments.ts';

const text = words.smokehouse.importing;
const FEW_CHOICES = 6;
type Read = Output<'readings.preview'>;

interface ImportPreviewProps {
  readonly read: Read;
  readonly points: readonly Point[];
  readonly answers: Readonly<Record<string, string>>;
  readonly columns: Readonly<Record<string, string>>;
  /** The thermometer chosen for a column whose piece had several. */
  readonly instruments: Readonly<Record<string, string>>;
  onAnswer(id: string, value: string): void;
  onColumn(name: string, pointId: string): void;
  onInstrument(name: string, instrument: string): void;
}

/** What the file holds, what it does not say, and where each column goes. */
export function ImportPreview({ read, points, answers, columns, instruments, onAnswer, onColumn, onInstrument }: ImportPreviewProps): ReactNode {
  const formats = useFormats();
  return (
    <>
      {read.questions.length === 0 ? null : (
        <section className="stack">
          <h3>{text.questions}</h3>
          {read.questions.map((question) => <Question key={question.id} question={question} value={answers[question.id] ?? ''} onAnswer={(value) => onAnswer(question.id, value)} />)}
        </section>
      )}
      {read.places.length === 0 ? null : (
        <section className="stack">
          <h3>{text.columns}</h3>
          {read.places.map((place) => (
            <div className="import-column" key={place.name}>
              <Pick
                label={text.goesTo(place.name)}
                value={columns[place.name] ?? place.likelyPointId ?? ''}
                empty={text.leaveOut}
                choices={points.map((point) => ({ id: point.id, text: point.rackPlace === '' ? point.name : `${point.name}, ${point.rackPlace}` }))}
                onChange={(pointId) => onColumn(place.name, pointId)}
              />
              <ColumnInstrument column={place.name} point={points.find((point) => point.id === (columns[place.name] ?? place.likelyPointId))} value={instruments[place.name] ?? ''} onChange={(instrument) => onInstrument(place.name, instrument)} />
              <p className="soft small">
                {place.firstAtMs === null || place.lastAtMs === null || place.lowestTicks === null || place.highestTicks === null ? '' : text.column(
                  place.count, formats.moment(place.firstAtMs), formats.moment(place.lastAtMs), formats.temperature(place.lowestTicks), formats.temperature(place.highestTicks),
                )}
              </p>
            </div>
          ))}
        </section>
      )}
      {read.remarks.length === 0 ? null : (
        <section className="note caution">
          <p className="strong">{text.remarks}</p>
          <ul>{read.remarks.map((remark) => <li key={remark}>{remark}</li>)}</ul>
        </section>
      )}
      {read.refusedCount === 0 ? null : (
        <section className="note fault-note">
          <p className="strong">{text.refused(read.refusedCount)}</p>
          <ul>{read.refusedRows.map((row) => <li key={row.line}>{text.line(row.line, row.reason)}</li>)}</ul>
          {read.refusedCount > read.refusedRows.length ? <p>{text.moreRefused(read.refusedCount - read.refusedRows.length)}</p> : null}
        </section>
      )}
    </>
  );
}

interface ColumnInstrumentProps {
  readonly column: string;
  readonly point: Point | undefined;
  readonly value: string;
  onChange(instrument: string): void;
}

/** Asked only where the piece had several thermometers. */
function ColumnInstrument({ column, point, value, onChange }: ColumnInstrumentProps): ReactNode {
  const choices = instrumentChoices(point);
  if (choices.length < 2) return null;
  return (
    <>
      <Pick label={words.paper.importing.from(column)} value={value} empty="…" choices={choices.map(({ id, name }) => ({ id, text: name === '' ? words.smokehouse.noProbe : name }))} onChange={onChange} />
      <p className="soft small">{words.paper.importing.several}</p>
    </>
  );
}

interface QuestionProps {
  readonly question: Read['questions'][number];
  readonly value: string;
  onAnswer(value: string): void;
}

/** A question with few choices is tapped, one with many is picked, one without is typed. */
function Question({ question, value, onAnswer }: QuestionProps): ReactNode {
  const [typed, setTyped] = useState(value);
  if (question.choices.length === 0) {
    return (
      <div className="row">
        <Field label={question.text} value={typed} onChange={setTyped} />
        <PressButton onPress={() => onAnswer(typed)}>{text.answer}</PressButton>
      </div>
    );
  }
  if (question.choices.length > FEW_CHOICES) return <Pick label={question.text} value={value} empty="…" choices={question.choices} onChange={onAnswer} />;
  return <Choices label={question.text} value={value === '' ? null : value} choices={question.choices} onChange={onAnswer} />;
}
