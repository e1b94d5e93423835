import { useEffect, useState, type ReactNode } from 'react';
import type { NextReading } from '../../app/contract/requests/smokehouse.ts';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';

const quick = words.paper.entry;
const MINUTE_MS = 60_000;
const TICK_MS = 5000;

/** When the next round is due, counted down; nothing where a logger reads. */
export function EnterTimer({ next }: { readonly next: readonly NextReading[] }): ReactNode {
  const formats = useFormats();
  const [nowMs, setNowMs] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), TICK_MS);
    return () => clearInterval(timer);
  }, []);
  const first = next[0];
  if (first === undefined) return null;
  const minutes = Math.ceil((first.atMs - nowMs) / MINUTE_MS);
  return (
    <p className={minutes <= 0 ? 'enter-timer due' : 'enter-timer'}>
      {quick.round} <b className="number">{formats.clock(first.atMs)}</b>, {minutes > 0 ? quick.inMinutes(minutes) : minutes === 0 ? quick.now : quick.over(-minutes)}
    </p>
  );
}
