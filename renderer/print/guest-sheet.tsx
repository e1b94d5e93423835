import type { ReactNode } from 'react';
import { failureOf, useAsk } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { dayInWords, useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { Paper } from './paper.tsx';
import './guest-sheet.css';

const text = words.guestSheet;
type Step = keyof typeof text.steps;

/** What a guest takes home beside the packs: how to keep them, when to throw them away, how to thaw them. */
export function GuestSheet({ handOverId }: { readonly handOverId: string }): ReactNode {
  const formats = useFormats();
  const { kitchen } = useKitchen();
  const answer = useAsk('handOver.get', { handOverId });
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  const { guest, codes, atMs, initials, travelHours, signature } = answer.data.handOver;
  const isFrozen = codes.some(({ store }) => store === 'frozen');
  const isSealed = codes.some(({ pack }) => pack === 'vacuum');
  const steps: readonly Step[] = [
    ...(isFrozen ? ['frozen' as const, 'soft' as const] : []), ...(codes.some(({ store }) => store === 'refrigerated') ? ['chilled' as const] : []), 'warm', ...(isFrozen && isSealed ? ['open' as const, 'never' as const] : []),
  ];
  return (
    <Paper widthMm={210} heightMm={297} marginMm={12}>
      <article className="sheet-a4 guest-sheet">
        <h1>{text.title}</h1>
        <p><b>{text.forWhom(guest.name)}</b>. {text.from(kitchen.name)}. {text.handed(formats.longMoment(atMs), initials)}.</p>
        <p>{travelHours === null ? text.travelUnknown : text.travel(String(travelHours))}</p>
        {steps.map((step) => (
          <section key={step} className="guest-step">
            <h2>{text.steps[step].head}</h2>
            <p>{text.steps[step].text}</p>
          </section>
        ))}
        <p>{text.who}</p>
        {codes.some(({ isCustom }) => isCustom) ? <p>{text.notForSale} {text.advisory}</p> : null}
        <h2>{text.packs}</h2>
        <ul className="guest-packs">
          {codes.map(({ packId, code, marketName, grams, bestBy }) => <li key={packId}><b>{code}</b> {marketName}, {formats.mass(grams)}{bestBy === null ? '' : `, ${words.coldStore.stock.bestBy(dayInWords(bestBy))}`}</li>)}
        </ul>
        {signature === null ? null : (
          <p className="guest-signed">
            <svg viewBox="0 0 600 200" role="img" aria-label={words.handOver.signature}><path d={signature.path} /></svg>
            <span>{words.handOver.signedBy} {signature.name}</span>
          </p>
        )}
        <p>{(kitchen.phone ?? '') === '' ? text.callNoPhone : text.call(kitchen.phone ?? '')}</p>
        <p className="print-caution"><b>{text.sources}.</b> {text.sourceLines.join(' ')}</p>
      </article>
    </Paper>
  );
}
