/** The limit sets with their checks and sources, and the kitchen's confirmations. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { CheckInfo, Confirmation, SetInfo } from '../../../app/contract/requests/limits.ts';
import { checkIdsOf, findCheck, isInForce, sourceOf, type LimitBook, type LimitSet, type Source } from '../../../app/limits/limit-set.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { checkFigures } from './check-figures.ts';
import { refuseInput } from './field-refusal.ts';
import { confirmationsOf, mayDecide } from './limit-standing.ts';
import { kitchenDay, limitsOf, ownSetsOf, publishedIdOf } from './own-set-book.ts';
import { decidingSetIdFor } from './own-set-choice.ts';

export const limitsServices = { 'limits.list': listLimits, 'limits.confirm': confirmLimit } satisfies Services<'limits.list' | 'limits.confirm'>;

function listLimits(room: BookRoom): Output<'limits.list'> {
  const limits = limitsOf(room);
  const listing: Listing = {
    limits, confirmed: confirmationsOf(room.book), today: kitchenDay(room),
    deciding: new Set([decidingSetIdFor(room, 'guest'), decidingSetIdFor(room, 'supplier')]),
  };
  return { sets: limits.sets.map((set) => setInfo(listing, set)) };
}

interface Listing {
  readonly limits: LimitBook;
  readonly confirmed: ReadonlyMap<string, Confirmation>;
  /** YYYY-MM-DD. */
  readonly today: string;
  /** Ids of the sets that decide new batches of some kind of fish. */
  readonly deciding: ReadonlySet<string>;
}

function setInfo(listing: Listing, set: LimitSet): SetInfo {
  const { limits, confirmed, today, deciding } = listing;
  return {
    setId: set.id, name: set.name, version: set.version, readInFull: set.readInFull,
    mayDecide: mayDecide(limits, set, confirmed) && isInForce(set, today), decides: deciding.has(set.id) && isInForce(set, today), note: set.note,
    checks: checkIdsOf(set).map((checkId) => checkInfo(listing, set, checkId)),
    noFigure: set.answers.flatMap((answer) => (answer.noFigure === undefined ? [] : `${answer.question}: ${answer.noFigure}`)),
  };
}

function checkInfo({ limits, confirmed }: Listing, set: LimitSet, checkId: string): CheckInfo {
  const check = findCheck(limits, checkId);
  if (check === undefined) throw new Error(`${set.id} names an unknown check ${checkId}`);
  const source = sourceOf(check, set);
  return {
    checkId, title: check.title, question: check.question, gate: check.gate, figures: checkFigures(check),
    source: sayingSource(source), mark: source.mark, confirmation: confirmed.get(publishedIdOf(set, checkId)) ?? null,
  };
}

/** Publisher, title, section and, where it is known, the year. */
function sayingSource({ publisher, title, section, year }: Source): string {
  return [publisher, title, section, year === null ? '' : String(year)].filter((part) => part !== '').join(', ');
}

function confirmLimit(room: BookRoom, input: Parsed<'limits.confirm'>): Output<'limits.confirm'> {
  // A kitchen's own figure rests on the published check that it was made from.
  const published = ownSetsOf(room.book).map((set) => publishedIdOf(set, input.checkId)).find((checkId) => checkId !== input.checkId) ?? input.checkId;
  const check = findCheck(room.catalogue.limits, published);
  if (check === undefined) refuseInput(`There is no check “${input.checkId}”.`, ['checkId'], 'Choose one from the list of limits.', 'NOT_FOUND');
  const person = actingPerson(room);
  const confirmation: Confirmation = {
    checkId: check.id, personId: person.id, initials: person.initials, atMs: room.clock.nowMs(), document: input.document,
  };
  room.book.shelf('confirmations').put({ id: room.newId(), ...confirmation });
  room.book.record({
    kind: 'limits.confirm', subjectId: check.id, happenedAtMs: confirmation.atMs,
    summary: `Confirmed ${check.id} (${check.title}) against: ${confirmation.document}.`, after: confirmation,
  });
  room.changed('limits', [check.id]);
  room.changed('verdict', []);
  return { confirmation };
}
