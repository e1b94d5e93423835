import type { ReactNode } from 'react';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { Paper } from './paper.tsx';

const text = words.print.hold;

/** The HOLD tag: large enough to read from across the room. */
export function HoldTag({ batchId }: { readonly batchId: string }): ReactNode {
  const formats = useFormats();
  const answer = useAsk('batch.get', { batchId });
  const verdict = useAsk('batch.verdict', { batchId });
  const listed = useAsk('corrective.list', { batchId });
  if (answer.data === undefined || verdict.data === undefined) return <ProblemNote failure={failureOf(answer.error ?? verdict.error)} />;
  const { batch } = answer.data;
  const name = batch.lotCode ?? batch.shortName;
  const correctives = listed.data?.correctives ?? [];
  const latest = correctives.at(-1);
  const hold = verdict.data.decisions.filter((decision) => decision.decision === 'hold').at(-1);
  return (
    <Paper widthMm={148} heightMm={105} marginMm={6} mayPrint={hold !== undefined}>
      <article className="hold-tag">
        <h1>{text.title}</h1>
        <p className="hold-rule">{text.lines}</p>
        <p><b>{text.batch}:</b> {name} {batch.marketName}, {formats.mass(batch.fillets.grams)}</p>
        {hold === undefined ? null : (
          <>
            <p><b>{text.why}:</b> {hold.reason}</p>
            <p><b>{text.place}:</b> {hold.keptWhere === '' ? '______________________' : hold.keptWhere}</p>
            <p><b>{text.by}:</b> {hold.initials} &nbsp; <b>{text.when}:</b> {formats.longMoment(hold.atMs)}</p>
          </>
        )}
        {latest === undefined ? null : <p><b>{words.packingTable.corrective.number(correctives.length, name)}:</b> {words.packingTable.corrective.dispositions[latest.disposition]}</p>}
        <p>{text.moving}</p>
      </article>
    </Paper>
  );
}
