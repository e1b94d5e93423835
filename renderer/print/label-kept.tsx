import { useMemo, useRef, type ReactNode } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { addressOf } from '../frame/address.ts';
import { PressButton } from '../parts/button.tsx';
import { useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { LabelFace } from './label-face.tsx';
import { useLabelFits } from './label-fit.ts';

const text = words.labels;

/** Every label of a batch that was printed, and one of them as it was; not for printing. */
export function KeptLabels({ batchId, printId }: { readonly batchId: string; readonly printId: string }): ReactNode {
  const list = useAsk('label.prints', { batchId });
  const formats = useFormats();
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  return (
    <main className="sheet stack">
      <div><PressButton onPress={() => window.history.back()}>{words.print.back}</PressButton></div>
      <h1>{text.prints}</h1>
      {printId === '' ? null : <KeptLabel printId={printId} />}
      {list.data.prints.length === 0 ? <p className="soft">{text.noPrints}</p> : (
        <ul>
          {list.data.prints.map((print) => (
            <li key={print.id}>
              <a className="link" href={addressOf('print', 'printed', batchId, print.id)}>{text.printLine(print.packCode, formats.longMoment(print.printedAtMs), print.printedBy, print.stockName)}</a>
              {print.why === '' ? null : <span className="soft">, {text.printWhy(print.why)}</span>}
            </li>
          ))}
        </ul>
      )}
    </main>
  );
}

function KeptLabel({ printId }: { readonly printId: string }): ReactNode {
  const kept = useAsk('label.kept', { printId });
  if (kept.data === undefined) return <ProblemNote failure={failureOf(kept.error)} />;
  return <KeptFace key={printId} label={kept.data.label} />;
}

function KeptFace({ label }: { readonly label: StoredLabel }): ReactNode {
  const { mark } = label;
  const picture = useAsk('label.mark', mark?.kind === 'picture' ? { fileId: mark.fileId } : null);
  const box = useRef<HTMLDivElement>(null);
  const labels = useMemo(() => [label], [label]);
  const { scale } = useLabelFits(box, labels);
  return (
    <section className="stack" aria-label={text.kept(label.packCode)}>
      <h2>{text.kept(label.packCode)}</h2>
      <div className="paper" ref={box}><LabelFace label={label} scale={scale} markPicture={picture.data?.base64} /></div>
      <p className="soft small">{text.digest(label.digest)}</p>
    </section>
  );
}
