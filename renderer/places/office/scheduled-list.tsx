import { useState, type ReactNode } from 'react';
import type { Paper, Scheduled } from '../../../app/contract/requests/papers.ts';
import { useAsk } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { dayInWords } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { ScheduledForm } from './scheduled-form.tsx';

const text = words.office.papersPages.scheduled;

interface ScheduledListProps {
  readonly scheduled: readonly Scheduled[];
  readonly papers: readonly Paper[];
  /** YYYY-MM-DD. */
  readonly today: string;
}

/** The scheduled processes, each with its window, its letter and whether its verification is current. */
export function ScheduledList({ scheduled, papers, today }: ScheduledListProps): ReactNode {
  const recipes = useAsk('recipe.list', {}).data?.recipes ?? [];
  const [editing, setEditing] = useState<Scheduled | 'new' | null>(null);
  const letters = papers.filter((paper) => paper.kind === 'process-letter' && paper.struck === null);
  return (
    <section className="sheet stack">
      <h2>{text.title}</h2>
      <p className="soft">{text.lead}</p>
      {scheduled.length === 0 ? <p>{text.none}</p> : (
        <div>
          {scheduled.map((one) => (
            <div key={one.id} className="paper-row">
              <div>
                <p><b>{one.name}</b> <span className="soft">{letterWords(one, papers)}</span></p>
                <p>{windowWords(one, recipes.find((recipe) => recipe.id === one.recipeId)?.name ?? '').join('; ')}</p>
                <p className={one.verifiedUntil === null || one.verifiedUntil < today ? 'ended' : 'soft'}>{verificationWords(one, today)}</p>
              </div>
              <PressButton look="quiet" label={text.changeOne(one.name)} onPress={() => setEditing(one)}>{text.change}</PressButton>
            </div>
          ))}
        </div>
      )}
      {letters.length === 0 ? <p className="help">{text.needLetter}</p> : <div><PressButton onPress={() => setEditing('new')}>{text.add}</PressButton></div>}
      {editing === null ? null : <ScheduledForm scheduled={editing === 'new' ? null : editing} letters={letters} onClose={() => setEditing(null)} />}
    </section>
  );
}

function letterWords({ paperId }: Scheduled, papers: readonly Paper[]): string {
  const paper = papers.find((one) => one.id === paperId);
  return paper === undefined ? '' : text.by(paper.issuedBy, paper.number);
}

function windowWords(one: Scheduled, recipeName: string): string[] {
  const given = (figure: string, say: (figure: string) => string): string[] => (figure === '' ? [] : [say(figure)]);
  return [
    ...(one.recipeId === null ? [] : [text.limits.recipe(recipeName, one.recipeVersion)]),
    ...given(one.ratioAtLeast, text.limits.ratio),
    ...given(one.thicknessMmAtMost, text.limits.thickness),
    ...given(one.soakHoursAtLeast, text.limits.soak),
    ...(one.brineAtMost === null ? [] : [text.limits.brine(one.brineAtMost.text, one.brineAtMost.unit)]),
    ...given(one.yieldPercentAtMost, text.limits.yield),
  ];
}

function verificationWords({ laboratory, verifiedUntil }: Scheduled, today: string): string {
  if (verifiedUntil === null) return text.notVerified;
  return verifiedUntil < today ? text.lapsed(dayInWords(verifiedUntil)) : text.verified(laboratory, dayInWords(verifiedUntil));
}
