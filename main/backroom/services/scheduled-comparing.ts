/** Every scheduled process on file beside what one batch was, so that one can be chosen with open eyes. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { asked, isInside, judgeScheduledProcess } from '../../../app/limits/scheduled-process.ts';
import type { BookRoom } from '../room.ts';
import { composeCase } from './judging/compose.ts';
import { keepingOf, wordsOf } from './judging/judge-batch.ts';
import { scheduledOf } from './scheduled-window.ts';

/** The processes whose letter counts, and the one that the batch has whatever became of its letter. */
export function compareScheduled(room: BookRoom, { batchId }: Parsed<'scheduled.forBatch'>): Output<'scheduled.forBatch'> {
  const batch = room.book.shelf('batches').need(batchId);
  const papers = room.book.shelf('papers');
  const offered = room.book.shelf('scheduledProcesses').all().filter(({ id, paperId }) => id === batch.scheduledId || papers.get(paperId)?.struck === null);
  if (offered.length === 0) return { chosenId: batch.scheduledId, choices: [] };
  const composed = composeCase(room, batch, keepingOf(room, batch));
  const judged = { ...composed.judgeCase, errorTicks: 0 };
  const context = { words: wordsOf(room, composed), alone: false, holds: [], together: false, probesAsked: 1 };
  const choices = offered.flatMap((scheduled) => {
    const process = scheduledOf(room, { ...batch, scheduledId: scheduled.id });
    if (process === undefined) return [];
    const paper = papers.need(scheduled.paperId);
    const found = judgeScheduledProcess(process, judged, context);
    return [{
      scheduledId: scheduled.id, name: scheduled.name, letter: `${paper.issuedBy}, ${paper.number}`, inside: found.verdict === 'meets', reason: found.reason,
      window: process.window.map((item) => ({ what: item.what, asked: asked(item), actual: item.actual ?? null, inside: isInside(item) })),
    }];
  });
  return { chosenId: batch.scheduledId, choices };
}
