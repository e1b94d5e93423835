/** What the papers on file show of one batch, for the judge. */
import type { CaseFacts, PackKind } from '../../../app/limits/judge-case.ts';
import { findSet } from '../../../app/limits/limit-set.ts';
import type { FiledKind } from '../../../app/limits/on-file.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { Stored, StoredBatch, StoredLoad } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { weighedLines } from './brine-card-ingredients.ts';
import { kitchenOf } from './kitchen.ts';
import { declaresNitrite } from './nitrite-rule.ts';
import { isOwnSet, limitsOf } from './own-set-book.ts';
import { countingPapers, dayStartMs, filedPaper } from './paper-records.ts';

export { scheduledOf } from './scheduled-window.ts';

type StoredPaper = Stored<'papers'>;

/**
 * Every paper that counts and bears on the batch, as records for the judge. The list is there even
 * when it is empty: this kitchen keeps its papers here, so what isn't in it isn't on file.
 * @param load the load it went in with, whose day a check of thermometers is made on
 * @param pack how it is to be packed; as it was made for when left out
 */
export function paperFactsOf(room: BookRoom, batch: StoredBatch, load: StoredLoad | undefined, pack: PackKind = batch.pack): Pick<CaseFacts, 'onFile' | 'loadDayStartMs'> {
  const zone = kitchenOf(room.book).timeZone;
  const onFile = countingPapers(room.book).flatMap((paper) => kindsOf(room, paper, batch, pack).map((what) => filedPaper(paper, zone, what)));
  const inAtMs = load?.inAtMs ?? null;
  return { onFile, ...(inAtMs === null ? {} : { loadDayStartMs: dayStartMs(localDay(inAtMs, zone), zone) }) };
}

/** What a paper shows of this batch; nothing where it is about something else. */
function kindsOf(room: BookRoom, paper: StoredPaper, batch: StoredBatch, pack: PackKind): FiledKind[] {
  switch (paper.kind) {
    // The checks that ask for a permission ask for one to smoke.
    case 'permission': return paper.subject === 'smoking' ? ['permission'] : [];
    case 'variance': return bears(room, paper, batch, pack) ? ['variance'] : [];
    case 'training': return paper.subject === 'record-review' ? ['training'] : [];
    case 'supplier-statement': return statementKind(room, paper, batch);
    case 'film': return ['film'];
    case 'process-letter': case 'limit-letter': case 'other': return [];
  }
}

/** A variance for one thing shows nothing of another; what a batch doesn't raise, it needs none for. */
function bears(room: BookRoom, { subject, number }: StoredPaper, batch: StoredBatch, pack: PackKind): boolean {
  switch (subject) {
    case 'smoking': case 'curing': return true;
    case 'vacuum-packing': return pack === 'vacuum';
    case 'custom-processing': return batch.sourceKind === 'guest';
    case 'nitrite': return weighedLines(room, batch).some(({ ingredient }) => declaresNitrite(ingredient));
    case 'limits': {
      const set = findSet(limitsOf(room), batch.setId);
      return set !== undefined && isOwnSet(set) && set.changes.some(({ varianceNumber }) => varianceNumber === number);
    }
    default: return false;
  }
}

/** A supplier's statement is on fish of that supplier alone: every lot of the batch must have come from there. */
function statementKind(room: BookRoom, { subject, holder }: StoredPaper, batch: StoredBatch): FiledKind[] {
  const what = subject === 'parasites-farmed' ? 'fed-pellets' : subject === 'parasites-frozen' ? 'frozen-by-supplier' : undefined;
  if (what === undefined) return [];
  const isTheirs = batch.lotIds.every((lotId) => {
    const { source } = room.book.shelf('fishLots').need(lotId);
    return source.kind === 'supplier' && isSameSupplier(source.supplierName, holder);
  });
  return isTheirs ? [what] : [];
}

function isSameSupplier(one: string, other: string): boolean {
  const plain = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(one) === plain(other);
}
