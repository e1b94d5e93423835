import { useEffect, useState, type ReactNode } from 'react';
import type { RecallView } from '../../../app/contract/requests/recall.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { RecallCalls } from './recall-calls.tsx';
import { RecallPacks } from './recall-packs.tsx';
import { ShelfHead } from './shelf-head.tsx';

const text = words.recall;
const SECOND_MS = 1000;

/** A recall at work: the clock, the packs to find, the people to call, and the end of it. */
export function RecallPage({ recallId }: { readonly recallId: string }): ReactNode {
  const answer = useAsk('recall.get', { recallId });
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const { recall } = answer.data;
  return (
    <>
      <ShelfHead title={text.row(recall.isDrill ? text.drill : text.real, recall.about.label)} lead={null} here={null} />
      <Stand view={answer.data} />
      <RecallPacks view={answer.data} />
      <RecallCalls recall={recall} />
      {recall.finished === null ? <Finish recallId={recall.id} /> : null}
      <Measured view={answer.data} />
    </>
  );
}

/** The clock, how far it is, and what else must be looked at. */
function Stand({ view }: { readonly view: RecallView }): ReactNode {
  const formats = useFormats();
  const { recall, balance } = view;
  return (
    <section className="sheet stack">
      <p>{text.began(formats.longMoment(recall.startedAtMs), recall.startedBy)}</p>
      <Elapsed view={view} />
      <p className="strong" role="status">{text.accounted(balance.accounted, balance.packs)} ({balance.percent})</p>
      {balance.open === 0 ? null : <p>{text.open(balance.open)}</p>}
      {balance.notFound === 0 ? null : <p className="fault">{text.missing(balance.notFound)}</p>}
      {recall.finished === null ? null : <p>{text.ended(formats.longMoment(recall.finished.atMs))}, {recall.finished.initials}: {recall.finished.note}</p>}
      <div className="row">
        <PressButton onPress={() => go(addressOf('print', 'recall', recall.id))}>{text.print}</PressButton>
        {recall.calls.length === 0 ? null : <PressButton onPress={() => go(addressOf('print', 'calls', recall.id))}>{text.printCalls}</PressButton>}
      </div>
      {view.unpacked.length === 0 ? null : <p className="fault">{text.unpacked(view.unpacked.join(', '))}</p>}
      {view.brines.length === 0 ? null : <p className="fault">{text.brines(view.brines.join(', '))}</p>}
    </section>
  );
}

/** What it is held to, and whether the weights of its batches add up. */
function Measured({ view }: { readonly view: RecallView }): ReactNode {
  return (
    <section className="sheet stack">
      <h2>{text.limits}</h2>
      <ul>{view.limits.map((limit) => <li key={limit.text}><b>{text.states[limit.state]}</b>: {limit.text} <span className="soft small">{limit.source}</span></li>)}</ul>
      <h2>{text.weights}</h2>
      <ul>{view.weights.map((line) => <li key={line}>{line}</li>)}</ul>
    </section>
  );
}

/** Runs on screen until every pack is accounted for or the recall is ended. */
function Elapsed({ view: { recall, balance } }: { readonly view: RecallView }): ReactNode {
  const [nowMs, setNowMs] = useState(() => Date.now());
  const endMs = balance.isWhole ? Math.max(...recall.packs.map(({ found }) => found?.atMs ?? 0)) : (recall.finished?.atMs ?? null);
  useEffect(() => {
    if (endMs !== null) return undefined;
    const timer = setInterval(() => setNowMs(Date.now()), SECOND_MS);
    return () => clearInterval(timer);
  }, [endMs]);
  return (
    <div>
      <p className="soft small">{endMs === null ? text.clock : text.took}</p>
      <p className="recall-clock">{clockText((endMs ?? nowMs) - recall.startedAtMs)}</p>
    </div>
  );
}

/** `1:04:09`. */
function clockText(elapsedMs: number): string {
  const seconds = Math.max(0, Math.floor(elapsedMs / SECOND_MS));
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}

function Finish({ recallId }: { readonly recallId: string }): ReactNode {
  const finish = useCommand('recall.finish');
  const [note, setNote] = useState('');
  return (
    <section className="sheet stack">
      <h2>{text.finish}</h2>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void finish.send({ recallId, note }); }}>
        <Field label={text.finishNote} value={note} onChange={setNote} />
        <ProblemNote failure={finish.failure} />
        <div className="row"><PressButton type="submit" isDisabled={finish.busy || note.trim() === ''}>{text.finishNow}</PressButton></div>
      </form>
    </section>
  );
}
