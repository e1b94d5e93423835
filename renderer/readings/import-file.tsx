import { useState, type ReactNode } from 'react';
import type { Point } from '../../app/contract/requests/smokehouse.ts';
import { AskFailure, chooseFile } from '../bridge/bridge.ts';
import type { Failure } from '../../app/contract/envelope.ts';
import { failureOf, useAsk, useCommand } from '../bridge/use-ask.ts';
import { PressButton } from '../parts/button.tsx';
import { Choices } from '../parts/choices.tsx';
import { Leaf } from '../parts/leaf.tsx';
import { MomentField } from '../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { ImportClock, type LoggerClock } from './import-clock.tsx';
import { fromInstruments } from './import-instruments.ts';
import { ImportPreview } from './import-preview.tsx';
import { ImportStanding } from './import-standing.tsx';

const text = words.smokehouse.importing;

/** How far the file goes: to fish out, on into the cooling, or neither. */
type Covers = 'out' | 'cooled' | 'no';

interface ImportFileProps {
  readonly loadId: string | null;
  readonly points: readonly Point[];
  /** Whether the load still lacks its in or out mark. */
  readonly mayMark: boolean;
  onClose(): void;
  /** Told in a sentence what was imported; the leaf is closed then. */
  onDone(sentence: string): void;
}

/** From a logger's file to readings in the book: choose, answer what the file can't say, match the columns, import. */
export function ImportFile({ loadId, points, mayMark, onClose, onDone }: ImportFileProps): ReactNode {
  const [fileId, setFileId] = useState<string | null>(null);
  const [problem, setProblem] = useState<Failure | null>(null);
  const [answers, setAnswers] = useState<Readonly<Record<string, string>>>({});
  const [columns, setColumns] = useState<Readonly<Record<string, string>>>({});
  const [instruments, setInstruments] = useState<Readonly<Record<string, string>>>({});
  const [covers, setCovers] = useState<Covers | null>(mayMark ? null : 'no');
  const [outAtMs, setOutAtMs] = useState<number | null>(null);
  const [asBefore, setAsBefore] = useState(true);
  const [loggerClock, setLoggerClock] = useState<LoggerClock | null>(null);
  const [whyAgain, setWhyAgain] = useState('');
  const clock = loggerClock === null ? {} : { loggerClock };
  const preview = useAsk('readings.preview', fileId === null ? null : { fileId, answers: { ...answers }, loadId, asBefore, ...clock });
  const keep = useCommand('readings.import');
  const read = fileId === null ? undefined : preview.data;
  const chosen = (read?.places ?? []).map((place) => ({ name: place.name, pointId: columns[place.name] ?? place.likelyPointId ?? '' })).filter((each) => each.pointId !== '');
  const given = { ...read?.answers, ...answers };
  const standing = useAsk('readings.preview', fileId === null || chosen.length === 0 ? null : { fileId, answers: given, loadId, columns: chosen, ...clock });
  // What is shown of the file before is not of this one.
  const told = standing.isPlaceholderData ? undefined : standing.data;
  const otherTimes = told?.otherTimes;
  const twice = new Set(chosen.map((each) => each.pointId)).size < chosen.length;
  const choose = async (): Promise<void> => {
    setProblem(null);
    try {
      const taken = await chooseFile('.csv,.txt,.tsv,.log,.xlsx');
      if (taken !== null) {
        setAnswers({});
        setColumns({});
        setInstruments({});
        setAsBefore(true);
        setLoggerClock(null);
        setWhyAgain('');
        setFileId(taken.fileId);
      }
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setProblem(thrown.failure);
    }
  };
  const send = async (): Promise<void> => {
    if (fileId === null) return;
    const answer = await keep.send({
      fileId, answers: given, columns: fromInstruments(chosen, points, instruments), coversInToOut: covers === 'out' || covers === 'cooled', outAtMs: covers === 'cooled' ? outAtMs : null, loadId,
      ...clock, ...(otherTimes === undefined || whyAgain.trim() === '' ? {} : { whyAgain }),
    });
    if (answer !== null) onDone(answer.kept === 0 && answer.alreadyThere > 0 ? text.allThere(answer.alreadyThere) : text.done(answer.kept, answer.alreadyThere));
  };
  const ready = read !== undefined && read.questions.length === 0 && chosen.length > 0 && !twice && covers !== null && (covers !== 'cooled' || outAtMs !== null) && !keep.busy && !preview.isPlaceholderData
    && (otherTimes === undefined || whyAgain.trim() !== '');
  return (
    <Leaf title={text.title} wide onClose={onClose}>
      <div className="row">
        <PressButton look={fileId === null ? 'next' : 'plain'} onPress={() => { void choose(); }}>{text.choose}</PressButton>
        {read === undefined ? null : <span className="strong">{read.fileName}</span>}
        {read?.sheet === undefined ? null : <span>{text.sheet(read.sheet)}</span>}
      </div>
      <ProblemNote failure={problem ?? (fileId === null ? null : failureOf(preview.error))} />
      {fileId !== null && preview.isFetching && read === undefined ? <p>{text.reading}</p> : null}
      {read === undefined || fileId === null ? null : (
        <ImportStanding
          before={read.before}
          standing={told}
          whyAgain={whyAgain}
          onWhy={setWhyAgain}
          onAfresh={() => {
            setAsBefore(false);
            setAnswers({});
          }}
        />
      )}
      {read === undefined ? null : (
        <ImportPreview
          read={read}
          points={points}
          answers={given}
          columns={columns}
          instruments={instruments}
          onAnswer={(id, value) => setAnswers({ ...answers, [id]: value })}
          onColumn={(name, pointId) => setColumns({ ...columns, [name]: pointId })}
          onInstrument={(name, instrument) => setInstruments({ ...instruments, [name]: instrument })}
        />
      )}
      {read !== undefined && read.questions.length === 0 && read.columns.some(({ role }) => role === 'time' || role === 'date' || role === 'clock') ? <ImportClock key={fileId} clock={loggerClock} onChange={setLoggerClock} /> : null}
      {read !== undefined && read.questions.length === 0 && mayMark ? (
        <Choices label={text.covers} value={covers} choices={[{ id: 'out', text: text.toOut }, { id: 'cooled', text: text.toCooled }, { id: 'no', text: text.no }]} onChange={setCovers} />
      ) : null}
      {covers === 'cooled' ? <MomentField label={text.outAt} value={read === undefined ? null : lastAtOf(read.places)} notAfterMs={read === undefined ? undefined : lastAtOf(read.places)} typed onChange={setOutAtMs} fault={faultOf(keep.failure, 'outAtMs')} /> : null}
      {twice ? <p className="fault">{text.twice}</p> : null}
      <ProblemNote failure={keep.failure} />
      <div className="row">
        {fileId === null ? null : <PressButton look="next" isDisabled={!ready} onPress={() => { void send(); }}>{text.keep}</PressButton>}
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}

/** The day the file ends on, for the time that is typed. */
function lastAtOf(places: readonly { readonly lastAtMs: number | null }[]): number {
  return Math.max(...places.map((place) => place.lastAtMs ?? 0));
}
