/** Making a version of a kitchen's own limit set: another set with figures changed, by a letter on file or the kitchen's own rule. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { LimitSet } from '../../../app/limits/limit-set.ts';
import { findSet } from '../../../app/limits/limit-set.ts';
import type { Stored } from '../book/stored.ts';
import { readDay } from '../../../app/packs/dates.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { isOwnSet, isSameName, limitsOf, ownSetsOf } from './own-set-book.ts';
import { buildOwnSet } from './own-set-building.ts';
import { changedFigures } from './own-set-figures.ts';
import { ownSetWire } from './own-set-wire.ts';
import { sayDay } from './when.ts';

/** What an own set may rest on. */
const LETTERS: readonly Stored<'papers'>['kind'][] = ['limit-letter', 'process-letter', 'variance'];

/**
 * Adds a set, or the next version of one where the kitchen has a set of that name. A version is a set
 * of its own with an id of its own: batches made under the one before keep it.
 * @throws Refusal NOT_FOUND: no such set, paper or check; INVALID_INPUT: a figure or day that can't be, nothing changed;
 *   RULE_BLOCKS: a looser figure without a variance valid today, a paper that is struck out or has no file
 */
export function addOwnSet(room: BookRoom, input: Parsed<'limits.addSet'>): Output<'limits.addSet'> {
  const limits = limitsOf(room);
  const from = findSet(limits, input.baseSetId) ?? refuseInput(`There is no limit set “${input.baseSetId}”.`, ['baseSetId'], 'Choose one from the list.', 'NOT_FOUND');
  const published = isOwnSet(from) ? needPublished(room, from.base.setId) : from;
  refusePublishedName(room, input.name);
  const earlier = ownSetsOf(room.book).filter((set) => isSameName(set.name, input.name));
  unwrap(readDay(input.effectiveFrom, 'effectiveFrom'));
  refuseEarlierDay(input.effectiveFrom, earlier.at(-1));
  const paper = input.paperId === null ? null : needLetter(room, input.paperId, input.effectiveFrom);
  const set = buildOwnSet(room, {
    published, paper,
    changes: changedFigures({ limits, published, from: isOwnSet(from) ? from : null, changes: input.changes }),
    stamp: {
      id: `own-${room.book.shelf('ownSets').all().length + 1}`, name: input.name, version: String(earlier.length + 1), effectiveFrom: input.effectiveFrom,
      note: `${published.name}, with figures of this kitchen by ${paper === null ? 'its own rule' : `${paper.what}, ${paper.number} (${paper.issuedBy})`}.`,
    },
  });
  const stored: Stored<'ownSets'> = { id: set.id, savedBy: actingPerson(room).initials, savedAtMs: room.clock.nowMs(), paperId: input.paperId, body: set };
  room.book.shelf('ownSets').put(stored);
  const wire = ownSetWire(room, stored);
  room.book.record({
    kind: 'limits.addSet', subjectId: set.id, happenedAtMs: stored.savedAtMs,
    summary: `Added the limit set “${set.name}”, version ${set.version}, from ${sayDay(set.effectiveFrom)} on: ${wire.changes.map((change) => `${change.checkId} ${change.is} (was ${change.was})`).join('; ')}.`,
    after: stored,
  });
  room.changed('limits', [set.id]);
  return { set: wire };
}

function needPublished(room: BookRoom, setId: string): LimitSet {
  return findSet(room.catalogue.limits, setId) ?? refuseInput(`The set “${setId}” that this one was made from is no longer published here.`, ['baseSetId'], 'Make it from another set.');
}

function refusePublishedName(room: BookRoom, name: string): void {
  const taken = room.catalogue.limits.sets.some((set) => isSameName(set.name, name));
  if (taken) refuseInput(`“${name}” is the name of a published set.`, ['name'], 'Give your set a name of its own.');
}

function refuseEarlierDay(day: string, latest: LimitSet | undefined): void {
  if (latest === undefined || day >= latest.effectiveFrom) return;
  refuseInput(`Version ${latest.version} of “${latest.name}” is in force from ${sayDay(latest.effectiveFrom)}, later than ${sayDay(day)}.`, ['effectiveFrom'], 'Let the new version begin on that day or later.');
}

function needLetter(room: BookRoom, paperId: string, day: string): Stored<'papers'> & { readonly fileId: string } {
  const paper = room.book.shelf('papers').need(paperId);
  const { fileId } = paper;
  if (!LETTERS.includes(paper.kind)) refuseInput(`“${paper.what}” is not a letter on limits.`, ['paperId'], 'Choose a process authority’s letter or a variance.');
  if (paper.struck !== null) blockLetter(`“${paper.what}” was struck out (${paper.struck.initials}: ${paper.struck.why}).`, 'Choose a letter that counts.');
  if (fileId === null) blockLetter(`“${paper.what}” is on file without its file.`, 'Add the paper again with its file.');
  if (paper.validUntil !== null && paper.validUntil < day) blockLetter(`“${paper.what}” was valid until ${sayDay(paper.validUntil)}, before the set would begin.`, 'Choose a letter that is valid then.');
  if (paper.validFrom !== null && paper.validFrom > day) blockLetter(`“${paper.what}” is valid only from ${sayDay(paper.validFrom)}.`, 'Let the set begin on that day or later.');
  return { ...paper, fileId };
}

function blockLetter(message: string, remedy: string): never {
  throw new Refusal('RULE_BLOCKS', message, { remedy, fields: [{ path: ['paperId'], message }] });
}
