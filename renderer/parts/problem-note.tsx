import type { ReactNode } from 'react';
import type { Failure } from '../../app/contract/envelope.ts';

/** What was refused and how to mend it; read aloud when it appears. */
export function ProblemNote({ failure }: { readonly failure: Failure | null }): ReactNode {
  if (failure === null) return null;
  return (
    <div className="note fault-note" role="alert">
      <p className="strong">{failure.message}</p>
      {failure.remedy === undefined ? null : <p>{failure.remedy}</p>}
      {failure.reference === undefined ? null : <p className="small soft">{failure.reference}</p>}
    </div>
  );
}

/** The sentence of a refusal for one field, or null: `path` dotted as the contract names it. */
export function faultOf(failure: Failure | null, path: string): string | null {
  return failure?.fields?.find((fault) => fault.path.join('.') === path)?.message ?? null;
}
