import type { ReactNode } from 'react';
import { PressButton } from '../parts/button.tsx';
import { words } from '../words/words.ts';
import { KEYS, type Key } from './enter-draft.ts';

const quick = words.paper.entry;

interface EnterKeypadProps {
  onKey(key: Key): void;
  onNext(): void;
}

/** Keys big enough for a wet thumb. */
export function EnterKeypad({ onKey, onNext }: EnterKeypadProps): ReactNode {
  return (
    <div className="enter-keys" role="group" aria-label={quick.keys}>
      {KEYS.map((key) => <PressButton key={key} label={quick.key(key)} onPress={() => onKey(key)}>{key === '-' ? '−' : key}</PressButton>)}
      <PressButton label={quick.back} onPress={() => onKey('back')}><svg width="30" height="24" viewBox="0 0 30 24" aria-hidden="true"><path d="M10 3h17v18H10L2 12zM14 8l8 8m0-8l-8 8" fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinejoin="round" strokeLinecap="round" /></svg></PressButton>
      <PressButton onPress={onNext}>{quick.next}</PressButton>
    </div>
  );
}
