import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

const text = words.paper.after;

/** After a power cut: which stretch of a running load is lost, and what to read now. Gone with the next reading. */
export function AfterStart({ shown }: { readonly shown: Output<'load.get'> }): ReactNode {
  const formats = useFormats();
  const lost = shown.off;
  if (lost === undefined) return null;
  const names = shown.load.points.filter((point) => lost.pointIds.includes(point.id)).map((point) => point.name);
  return (
    <section className="note caution" aria-label={text.title}>
      <p><b>{text.title}.</b> {text.off(formats.moment(lost.fromMs), formats.clock(lost.toMs))}</p>
      <p><b>{text.readNow(names.join(', '))}</b></p>
      <p>{shown.load.outAtMs === null && shown.load.process === 'hot' ? `${text.lost} ${text.hold}` : text.lost}</p>
    </section>
  );
}
