/** Papers on file and scheduled processes. */
import type { Output } from '../../../app/contract/contract.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { givePaperFile } from './paper-file.ts';
import { addPaper, strikePaper } from './paper-keeping.ts';
import { compareScheduled } from './scheduled-comparing.ts';
import { saveScheduled } from './scheduled-keeping.ts';
import { chooseScheduled } from './scheduled-choice.ts';

export const paperServices = {
  'paper.list': listPapers,
  'paper.file': givePaperFile,
  'paper.add': addPaper,
  'paper.strike': strikePaper,
  'scheduled.save': saveScheduled,
  'scheduled.forBatch': compareScheduled,
  'batch.useScheduled': chooseScheduled,
} satisfies Services<'paper.list' | 'paper.file' | 'paper.add' | 'paper.strike' | 'scheduled.save' | 'scheduled.forBatch' | 'batch.useScheduled'>;

function listPapers({ book }: BookRoom): Output<'paper.list'> {
  return { papers: book.shelf('papers').all(), scheduled: book.shelf('scheduledProcesses').all() };
}
