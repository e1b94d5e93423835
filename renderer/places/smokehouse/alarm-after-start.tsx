import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { lostStretch } from './alarm-lost-stretch.ts';

const text = words.paper.after;
/** When these pages were opened: in the window that is when the program was started. */
const OPENED_MS = Date.now();

/** After a power cut: which stretch of a running load is lost, and what to read now. Gone with the next reading. */
export function AfterStart({ shown }: { readonly shown: Output<'load.get'> }): ReactNode {
  const formats = useFormats();
  const lost = lostStretch(shown, OPENED_MS);
  if (lost === null) return null;
  const names = shown.load.points.filter((point) => lost.pointIds.includes(point.id)).map((point) => point.name);
  return (
    <section className="note caution" aria-label={text.title}>
      <p><b>{text.title}.</b> {text.off(formats.moment(lost.fromMs), formats.clock(lost.toMs))}</p>
      <p><b>{text.readNow(names.join(', '))}</b></p>
      <p>{shown.load.outAtMs === null && shown.load.process === 'hot' ? `${text.lost} ${text.hold}` : text.lost}</p>
    </section>
  );
}
