import type { ReactNode } from 'react';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { sentencesOf } from '../chart/evidence-lanes.ts';
import { Paper } from './paper.tsx';
import { RecordAfter } from './record-after.tsx';
import { RecordChecks } from './record-checks.tsx';
import { RecordCorrective } from './record-corrective.tsx';
import { RecordReadings } from './record-readings.tsx';

const text = words.print.record;
const shelf = words.packingTable;

/** The batch record on paper: everything that was recorded, with the verdicts and the chain's digest. */
export function RecordSheet({ batchId }: { readonly batchId: string }): ReactNode {
  const formats = useFormats();
  const answer = useAsk('record.batch', { batchId });
  const listed = useAsk('corrective.list', { batchId });
  // Printed before all of it is there, it would be a record with something left out.
  if (answer.data === undefined || listed.data === undefined) return <ProblemNote failure={failureOf(answer.error ?? listed.error)} />;
  const record = answer.data;
  const { batch, kitchen, load } = record;
  const { card } = batch;
  return (
    <Paper widthMm={210} heightMm={297} marginMm={14} foot={text.foot(kitchen.name, batch.lotCode ?? batch.shortName)}>
      <article className="sheet-a4">
        <h1>{text.title} {batch.lotCode ?? batch.shortName}</h1>
        {kitchen.demo ? <p><b>{words.frame.invented}</b></p> : null}
        <p>{kitchen.name}, {kitchen.address.city}, {kitchen.address.region}. {batch.marketName} ({batch.scientificName}), {words.smokehouse.processes[batch.process]}</p>
        <h2>{text.fish}</h2>
        <ul>
          {record.lots.map((lot) => (
            <li key={lot.id}>
              {lot.code}: {formats.mass(lot.mass.grams)}, {words.recordShelf.pieces(lot.pieces)}; {formats.longMoment(lot.receivedAtMs)}, {lot.receivedBy};{' '}
              {lot.temperatureTicks === null ? words.fishIn.notMeasured : formats.temperature(lot.temperatureTicks)};{' '}
              {lot.source.kind === 'guest' ? words.fishIn.guestFish(lot.source.ownerName) : words.fishIn.boughtFish(lot.source.supplierName, lot.source.supplierLot)}
            </li>
          ))}
        </ul>
        <h2>{text.brine}</h2>
        <p>{text.recipe(card.recipeName, card.recipeVersion)} {card.lines.map((line) => `${line.name} ${line.grams} g`).join(', ')}. {card.salometerDegrees.toFixed(1)} {words.brineBench.salometer}, {card.percentByWeight.toFixed(2)} % {words.brineBench.byWeight}</p>
        <ul>
          {batch.soak.map((event) => (
            <li key={event.what + event.atMs}>
              {words.print.card[event.what === 'start' ? 'started' : event.what === 'end' ? 'ended' : 'turns']} {formats.longMoment(event.atMs)}, {event.initials}
              {event.brineTicks === null ? '' : `, ${words.print.card.brine} ${formats.temperature(event.brineTicks)}`}
            </li>
          ))}
        </ul>
        {record.ingredientLots.length === 0 ? null : <p>{words.trace.where.ingredients}: {record.ingredientLots.map((lot) => words.trace.where.ingredient(lot.ingredientName, lot.lotCode, lot.supplierName)).join('; ')}</p>}
        {load === null ? null : <RecordReadings batchId={batch.id} load={load} series={record.series} table={record.table} sentences={sentencesOf(record.deciding.checks, batch.id)} />}
        <h2>{text.verdicts}</h2>
        <RecordChecks record={record} />
        <RecordCorrective listed={listed.data} name={batch.lotCode ?? batch.shortName} filletGrams={batch.fillets.grams} />
        <h2>{text.decisions}</h2>
        <ul>{record.decisions.map((each) => <li key={each.id}>{shelf.decidedBy(shelf.decided[each.decision], formats.longMoment(each.atMs), each.initials, each.reason)}</li>)}</ul>
        <RecordAfter record={record} />
        <h2>{text.entries}</h2>
        <table className="print-table">
          <thead><tr><th>{text.sequence}</th><th>{text.entered}</th><th>{text.who}</th><th>{text.what}</th></tr></thead>
          <tbody>
            {record.entries.map((entry) => (
              <tr key={entry.id}>
                <td>{entry.sequence}</td>
                <td className="moment">{formats.longMoment(entry.enteredAtMs)}</td>
                <td>{entry.person}</td>
                <td>{entry.summary} {entry.why}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <p className="print-caution">{text.chain(record.chain.entries, record.chain.intact, record.chain.digest)}</p>
        <p className="print-caution">{words.frame.caution}</p>
      </article>
    </Paper>
  );
}
