import type { ReactNode } from 'react';
import type { Verdict } from '../../app/contract/requests/verdict.ts';
import { words } from '../words/words.ts';

/**
 * The margin to the limit as a shape: the tick is the limit, right of it is always the good side.
 * Bar to the right: meets. Short bar inside a bracket: meets within the thermometer's error. Bar to
 * the left with a cross: does not meet. Broken bar: not proven. Ring: so far. Reads in black and
 * white; nothing is drawn before there is evidence (`none`).
 */
export function VerdictShape({ verdict }: { readonly verdict: Verdict | 'none' }): ReactNode {
  if (verdict === 'none' || verdict === 'does-not-apply') return <span aria-hidden="true" />;
  const tick = <path d="M32 2v22" stroke="var(--ink)" strokeWidth="2.4" />;
  return (
    <svg width="64" height="26" viewBox="0 0 64 26" role="img" aria-label={words.verdict.names[verdict]}>
      {verdict === 'open' ? <>{tick}<Body verdict={verdict} /></> : <><Body verdict={verdict} />{tick}</>}
    </svg>
  );
}

function Body({ verdict }: { readonly verdict: Exclude<Verdict, 'does-not-apply'> }): ReactNode {
  switch (verdict) {
    case 'meets':
      return <path d="M32 13h27" stroke="var(--moss)" strokeWidth="10" />;
    case 'meets-within-error':
      return (
        <>
          <path d="M32 13h9" stroke="var(--moss)" strokeWidth="10" />
          <path d="M22 5v-2h22v2M22 21v2h22v-2" fill="none" stroke="var(--ink)" strokeWidth="1.4" />
        </>
      );
    case 'misses':
      return (
        <>
          <path d="M32 13H6" stroke="var(--hold)" strokeWidth="10" />
          <path d="M10 18l8-10M18 18l8-10" stroke="var(--sheet)" strokeWidth="2" />
        </>
      );
    case 'open':
      return <circle cx="32" cy="13" r="8" fill="var(--sheet)" stroke="var(--ink)" strokeWidth="2.4" />;
    case 'not-proven':
    case 'no-figure':
      return <path d="M6 13h52" stroke="var(--soft)" strokeWidth="10" strokeDasharray="6 5" />;
  }
}
