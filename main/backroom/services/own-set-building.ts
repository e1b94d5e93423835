/** Builds a version of an own set from what it changes, each figure on the text it rests on. */
import { findCheck, sourceOf, type LimitBook, type LimitSet, type Source } from '../../../app/limits/limit-set.ts';
import type { FiledRecord } from '../../../app/limits/on-file.ts';
import { isValidOver } from '../../../app/limits/on-file.ts';
import { loosenCheck, ownSetFrom, setFromLetter, tightenCheck, type OwnSet, type SetLetter, type SetStamp } from '../../../app/limits/own-set.ts';
import { clockWords, type Words } from '../../../app/limits/words.ts';
import { localDay } from '../../../app/measures/zone.ts';
import type { Outcome } from '../../../app/measures/outcome.ts';
import type { Stored } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';
import { isUnseen } from './limit-standing.ts';
import { limitsOf, ownSetsOf } from './own-set-book.ts';
import type { ChangedCheck } from './own-set-figures.ts';
import { countingPapers, filedPaper } from './paper-records.ts';
import { sayDay } from './when.ts';

interface Building {
  readonly published: LimitSet;
  readonly paper: (Stored<'papers'> & { readonly fileId: string }) | null;
  readonly changes: readonly ChangedCheck[];
  readonly stamp: SetStamp;
}

/**
 * The set as it will be kept.
 * @throws Refusal RULE_BLOCKS where a figure is looser than the published one and no variance on limits is valid now
 */
export function buildOwnSet(room: BookRoom, { published, paper, changes, stamp }: Building): OwnSet {
  const limits = limitsOf(room);
  const variance = changes.some(({ isLooser }) => isLooser) ? varianceOnLimits(room, paper) : undefined;
  const letter = paper === null ? undefined : letterOf(room, paper);
  const byLetter = letter === undefined ? [] : changes.filter(({ carried, isLooser }) => !carried && !isLooser);
  const rest = changes.filter((change) => !byLetter.includes(change));
  const started = letter === undefined || byLetter.length === 0
    ? withLetter(unwrap(ownSetFrom(published, limits, stamp)), letter)
    : unwrap(setFromLetter(published, limits, stamp, letter, byLetter.map(({ check, figures }) => ({ checkId: check.id, figures }))));
  return rest.reduce((set, change) => {
    const source = sourceFor(room, { limits, published, letter, change });
    return changed(change.isLooser
      ? loosenCheck(set, limits, change.check.id, change.figures, source, { onFile: variance, nowMs: room.clock.nowMs(), words: wordsOf(room) })
      : tightenCheck(set, limits, change.check.id, change.figures, source));
  }, started);
}

function withLetter(set: OwnSet, letter: SetLetter | undefined): OwnSet {
  return letter === undefined ? set : { ...set, letter };
}

function changed(outcome: Outcome<OwnSet>): OwnSet {
  if (outcome.ok) return outcome.value;
  const { message, remedy } = outcome.problem;
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: ['changes'], message }] });
}

function letterOf(room: BookRoom, paper: Stored<'papers'> & { readonly fileId: string }): SetLetter {
  const writtenOn = paper.validFrom ?? localDay(paper.addedAtMs, kitchenOf(room.book).timeZone);
  return { authority: paper.issuedBy, number: paper.number, writtenOn, fileId: paper.fileId };
}

/** The variance that is named, else the one on limits that lasts longest of those valid now. */
function varianceOnLimits(room: BookRoom, paper: Stored<'papers'> | null): FiledRecord | undefined {
  const nowMs = room.clock.nowMs();
  const zone = kitchenOf(room.book).timeZone;
  const isOnLimits = (one: Stored<'papers'>): boolean => one.kind === 'variance' && one.subject === 'limits';
  const papers = [...(paper !== null && isOnLimits(paper) ? [paper] : []), ...countingPapers(room.book).filter(isOnLimits)];
  const records = papers.map((one) => filedPaper(one, zone, 'variance'));
  return records.find((record) => isValidOver(record, { fromMs: nowMs, toMs: nowMs })) ?? records[0];
}

/** The letter for what it changes; a carried figure keeps the text it had; else the kitchen's own rule. */
function sourceFor(room: BookRoom, { limits, published, letter, change }: { readonly limits: LimitBook; readonly published: LimitSet; readonly letter: SetLetter | undefined; readonly change: ChangedCheck }): Source {
  if (change.carried) {
    const kept = ownSetsOf(room.book).flatMap((set) => set.changes.filter(({ checkId }) => checkId === change.check.id)).at(-1);
    const own = kept === undefined ? undefined : findCheck(limits, kept.ownId);
    if (own !== undefined) return sourceOf(own);
  }
  if (letter !== undefined) return { publisher: letter.authority, title: 'Letter on file', section: letter.number, year: Number(letter.writtenOn.slice(0, 4)), mark: 'read' };
  const text = sourceOf(change.check, published);
  const year = Number(localDay(room.clock.nowMs(), kitchenOf(room.book).timeZone).slice(0, 4));
  // A stricter figure of our own does not make the text it was taken from any better known.
  return { publisher: kitchenOf(room.book).name, title: 'The kitchen’s own rule', section: `stricter than ${text.title}`, year, mark: isUnseen(text.mark) ? text.mark : 'common practice' };
}

function wordsOf(room: BookRoom): Words {
  const { timeZone, temperatureUnit } = kitchenOf(room.book);
  const day = (ms: number): string => sayDay(localDay(ms, timeZone));
  return clockWords(temperatureUnit, day, day);
}
