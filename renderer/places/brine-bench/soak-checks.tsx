import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { CheckSource } from '../../parts/check-list.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { VerdictShape } from '../../parts/verdict-shape.tsx';
import { words } from '../../words/words.ts';

const text = words.brineBench.soakLog;

/** The deciding set's limits of the brine; with their verdicts once something is on record, never before. */
export function SoakChecks({ batch, hasEvidence }: { readonly batch: Batch; readonly hasEvidence: boolean }): ReactNode {
  const answer = useAsk('batch.verdict', { batchId: batch.id });
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const checks = answer.data.deciding.checks.filter((check) => check.question === 'brine' && check.verdict !== 'does-not-apply');
  if (checks.length === 0) return null;
  return (
    <div>
      <h3>{text.checks}</h3>
      {checks.map((check) => (hasEvidence ? (
        <div className="verdict" key={check.checkId}>
          <VerdictShape verdict={check.verdict} />
          <div>
            <p className="strong">{check.title}: {words.verdict.names[check.verdict]}</p>
            <p className="small">{check.reason}</p>
            {check.needed === '' ? null : <p className="small strong">{check.needed}</p>}
          </div>
        </div>
      ) : <p key={check.checkId}>{check.title}</p>))}
      <details className="fold">
        <summary>{text.sources}</summary>
        {checks.map((check) => <div key={check.checkId}><p>{check.title}</p><CheckSource check={check} /></div>)}
      </details>
    </div>
  );
}
