import { useState, type ReactNode } from 'react';
import type { Paper } from '../../../app/contract/requests/papers.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { dayInWords, useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { inOrder, standingOn } from './paper-draft.ts';
import { PaperFileButton } from './paper-file.tsx';
import { PaperForm } from './paper-form.tsx';
import { ScheduledList } from './scheduled-list.tsx';
import { StrikeLeaf } from './strike-leaf.tsx';

const text = words.office.papersPages;

/** The papers on file with how each stands today, and the scheduled processes that rest on them. */
export function PapersPage(): ReactNode {
  const { kitchen } = useKitchen();
  const list = useAsk('paper.list', {});
  const [adding, setAdding] = useState(false);
  const [striking, setStriking] = useState<Paper | null>(null);
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  const { papers, scheduled } = list.data;
  const today = localDay(Date.now(), kitchen.timeZone);
  return (
    <div className="stack">
      <section className="sheet stack">
        <h2>{text.title}</h2>
        <p className="soft">{text.lead}</p>
        {papers.length === 0 ? <p>{text.none}</p> : (
          <div>{inOrder(papers, today).map((paper) => <PaperRow key={paper.id} paper={paper} today={today} onStrike={() => setStriking(paper)} />)}</div>
        )}
        <div><PressButton onPress={() => setAdding(true)}>{text.add}</PressButton></div>
      </section>
      <ScheduledList scheduled={scheduled} papers={papers} today={today} />
      {adding ? <PaperForm onClose={() => setAdding(false)} /> : null}
      {striking === null ? null : <StrikeLeaf paper={striking} onClose={() => setStriking(null)} />}
    </div>
  );
}

interface PaperRowProps {
  readonly paper: Paper;
  readonly today: string;
  onStrike(): void;
}

function PaperRow({ paper, today, onStrike }: PaperRowProps): ReactNode {
  const formats = useFormats();
  const { state } = standingOn(paper, today);
  return (
    <div className="paper-row" {...(paper.struck === null ? {} : { 'data-struck': '' })}>
      <div>
        <p><b className="paper-name">{paper.what}</b>{paper.number === '' ? '' : `, ${paper.number}`} <span className="soft">{text.kinds[paper.kind]}: {text.subjects[paper.subject]}</span></p>
        <p className={state === 'expired' ? 'ended' : ''}>{standingWords(paper, today, formats.day)}</p>
        <p className="soft small">
          {[paper.issuedBy, paper.holder, paper.fileName === '' ? text.noFile : paper.fileName, text.by(paper.addedBy, formats.day(paper.addedAtMs))].filter((part) => part !== '').join('; ')}
        </p>
      </div>
      <div className="row">
        <PaperFileButton paper={paper} />
        {paper.struck === null ? <PressButton look="quiet" label={text.strikeTitle(paper.what)} onPress={onStrike}>{text.strike}</PressButton> : null}
      </div>
    </div>
  );
}

function standingWords(paper: Paper, today: string, day: (atMs: number) => string): string {
  const standing = standingOn(paper, today);
  switch (standing.state) {
    case 'struck': return paper.struck === null ? '' : text.standing.struck(paper.struck.initials, day(paper.struck.atMs), paper.struck.why);
    case 'expired': return text.standing.expired(dayInWords(standing.until));
    case 'not-yet': return text.standing.notYet(dayInWords(standing.from));
    case 'soon': return text.standing.soon(dayInWords(standing.until), standing.days);
    case 'valid': return text.standing.valid(dayInWords(standing.until));
    case 'endless': return text.standing.endless;
  }
}
