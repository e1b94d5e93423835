import type { ReactNode } from 'react';
import type { RecallView } from '../../app/contract/requests/recall.ts';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { Paper } from './paper.tsx';
import './recall-sheet.css';

const text = words.recall;

/** A recall on paper: the list to call from alone, or the whole result. */
export function RecallSheet({ recallId, only }: { readonly recallId: string; readonly only: 'calls' | null }): ReactNode {
  const { kitchen } = useKitchen();
  const formats = useFormats();
  const answer = useAsk('recall.get', { recallId });
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const { recall } = answer.data;
  const title = `${text.sheet.title(recall.isDrill)}${only === null ? '' : `: ${text.sheet.callsTitle}`}`;
  return (
    <Paper widthMm={210} heightMm={297} marginMm={14} foot={`${kitchen.name}: ${title}`}>
      <article className="sheet-a4">
        <h1>{title}</h1>
        {kitchen.demo ? <p><b>{words.frame.invented}</b></p> : null}
        <p><b>{text.sheet.head(recall.about.label)}</b>. {kitchen.name}, {kitchen.address.city}, {kitchen.address.region}. {text.began(formats.longMoment(recall.startedAtMs), recall.startedBy)}</p>
        {only === null ? <Result view={answer.data} /> : <p>{text.sheet.say}</p>}
        <Calls view={answer.data} />
      </article>
    </Paper>
  );
}

function Result({ view }: { readonly view: RecallView }): ReactNode {
  const formats = useFormats();
  const { recall, balance } = view;
  const { columns } = text.sheet;
  return (
    <>
      <h2>{text.sheet.balance}</h2>
      <p><b>{text.accounted(balance.accounted, balance.packs)} ({balance.percent}), {text.sheet.massOf(formats.mass(balance.accountedGrams), formats.mass(balance.grams))}</b></p>
      <ul>{balance.byWhere.map((each) => <li key={each.where}>{each.packs} {text.wheres[each.where]}, {formats.mass(each.grams)}</li>)}</ul>
      {view.unpacked.length === 0 ? null : <p>{text.unpacked(view.unpacked.join(', '))}</p>}
      {view.brines.length === 0 ? null : <p>{text.brines(view.brines.join(', '))}</p>}
      {recall.finished === null ? <p>{text.running}</p> : <p>{text.ended(formats.longMoment(recall.finished.atMs))}, {recall.finished.initials}: {recall.finished.note}</p>}
      <h2>{text.limits}</h2>
      <ul>{view.limits.map((limit) => <li key={limit.text}><b>{text.states[limit.state]}</b>: {limit.text}. <span className="soft">{limit.source}</span></li>)}</ul>
      <h2>{text.weights}</h2>
      <ul>{view.weights.map((line) => <li key={line}>{line}</li>)}</ul>
      <h2>{text.packs}</h2>
      <table className="print-table">
        <thead><tr><th>{columns.pack}</th><th>{columns.weight}</th><th>{columns.book}</th><th>{columns.found}</th></tr></thead>
        <tbody>
          {recall.packs.map(({ packId, code, grams, expected, found }) => (
            <tr key={packId}>
              <td className="number">{code}</td>
              <td>{formats.mass(grams)}</td>
              <td>{expected}</td>
              <td>{found === null ? text.sheet.notFound : text.foundLine(text.wheres[found.where], formats.longMoment(found.atMs), found.initials)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function Calls({ view: { recall } }: { readonly view: RecallView }): ReactNode {
  const formats = useFormats();
  const { callColumns } = text.sheet;
  if (recall.calls.length === 0) return <p>{text.noCalls}</p>;
  return (
    <>
      <h2>{text.calls}</h2>
      <table className="print-table calls">
        <thead><tr><th>{callColumns.who}</th><th>{callColumns.contact}</th><th>{callColumns.packs}</th><th>{callColumns.reached}</th></tr></thead>
        <tbody>
          {recall.calls.map((call) => (
            <tr key={call.guestId}>
              <td>{call.name}</td>
              <td className="number">{call.contact}</td>
              <td>{call.packs}</td>
              <td>{call.reached === null ? '' : text.reachedLine(formats.longMoment(call.reached.atMs), call.reached.initials, call.reached.note)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
