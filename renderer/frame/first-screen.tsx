import { useState, type ReactNode } from 'react';
import type { Failure } from '../../app/contract/envelope.ts';
import { useCommand } from '../bridge/use-ask.ts';
import { PressButton } from '../parts/button.tsx';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { OwnBookForm } from './own-book-form.tsx';

/** What a person sees before there is a book: the demonstration, or their own. */
export function FirstScreen({ fault }: { readonly fault: Failure | null }): ReactNode {
  const [own, setOwn] = useState(false);
  const demo = useCommand('book.openDemo');
  const text = words.firstScreen;
  return (
    <main className="place first">
      <h1>{text.title}</h1>
      <p className="lead">{text.lead}</p>
      <p className="note caution">{text.caution}</p>
      {fault === null ? null : (
        <section className="stack">
          <h2>{text.refusedTitle}</h2>
          <ProblemNote failure={fault} />
          <p>{text.refusedNote}</p>
        </section>
      )}
      {own ? <OwnBookForm onBack={() => setOwn(false)} /> : (
        <div className="halves">
          <section className="sheet stack">
            <PressButton look="next" isDisabled={demo.busy} onPress={() => { void demo.send({}); }}>{text.demo}</PressButton>
            <p className="soft">{text.demoNote}</p>
            <ProblemNote failure={demo.failure} />
          </section>
          <section className="sheet stack">
            <PressButton onPress={() => setOwn(true)}>{text.own}</PressButton>
            <p className="soft">{text.ownNote}</p>
          </section>
        </div>
      )}
    </main>
  );
}
