import type { ReactNode } from 'react';
import type { GateLine } from '../../app/contract/requests/verdict.ts';
import { words } from '../words/words.ts';

const text = words.packingTable;

/** The gates of a batch, a line each: what is due now, and what comes later. */
export function GateLines({ gates }: { readonly gates: readonly GateLine[] }): ReactNode {
  if (gates.length === 0) return null;
  return (
    <ul className="gate-lines" aria-label={text.gates}>
      {gates.map((gate) => (
        <li key={gate.gate}>
          <b>{text.gate[gate.gate]}: {text.states[gate.state]}.</b> {gate.line}
          {unsaid(gate).length === 0 ? null : <span className="soft"> {text.later}: {unsaid(gate).join('; ')}.</span>}
        </li>
      ))}
    </ul>
  );
}

/** What comes later and isn't named in the line already. */
function unsaid({ line, later }: GateLine): string[] {
  return later.filter((each) => !line.includes(each));
}
