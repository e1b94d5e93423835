import { useState, type ReactNode } from 'react';
import { failureOf, useAsk, useCommand } from '../bridge/use-ask.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { LabelFace } from './label-face.tsx';
import { Paper } from './paper.tsx';

/** One label a pack, each a page of the stock's size; what lacks something required is not printed. */
export function LabelRun({ batchId, stockId }: { readonly batchId: string; readonly stockId: string }): ReactNode {
  const packs = useAsk('pack.list', { batchId });
  const packIds = packs.data?.packs.map((pack) => pack.id) ?? [];
  const labels = useAsk('label.forPacks', packIds.length === 0 ? null : { packIds, stockId });
  const printed = useCommand('label.printed');
  const [tooSmall, setTooSmall] = useState<ReadonlySet<string>>(new Set());
  if (labels.data === undefined) return <ProblemNote failure={failureOf(labels.error)} />;
  const shown = labels.data.labels;
  const stock = shown[0]?.stock;
  if (stock === undefined) return null;
  const missing = [...new Set(shown.flatMap((label) => label.missing.map((each) => `${each.element}: ${each.why}`)))];
  const noteFit = (packId: string, fits: boolean): void => {
    if (tooSmall.has(packId) !== fits) return;
    const next = new Set(tooSmall);
    if (fits) next.delete(packId);
    else next.add(packId);
    setTooSmall(next);
  };
  return (
    <Paper
      widthMm={stock.widthMm}
      heightMm={stock.heightMm}
      marginMm={0}
      printText={words.print.printAndKeep}
      mayPrint={missing.length === 0 && tooSmall.size === 0 && !printed.busy}
      beforePrint={async () => (await printed.send({ packIds, stockId: stock.id })) !== null}
      above={(
        <div className="stack">
          <ProblemNote failure={printed.failure} />
          {missing.length === 0 ? null : (
            <div className="note fault-note" role="alert">
              <p className="strong">{words.print.missing}</p>
              <ul>{missing.map((line) => <li key={line}>{line}</li>)}</ul>
            </div>
          )}
          {tooSmall.size === 0 ? null : <p className="fault" role="alert">{words.print.tooSmall(stock.name)}</p>}
        </div>
      )}
    >
      {shown.map((label) => <LabelFace key={label.packId} label={label} onFit={(fits) => noteFit(label.packId, fits)} />)}
    </Paper>
  );
}
