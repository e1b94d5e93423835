/** The limit sets with their checks and sources, and the kitchen's confirmations. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { CheckInfo, Confirmation, SetInfo } from '../../../app/contract/requests/limits.ts';
import { checkIdsOf, findCheck, sourceOf, type LimitSet, type Source } from '../../../app/limits/limit-set.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { checkFigures } from './check-figures.ts';
import { refuseInput } from './field-refusal.ts';
import { kitchenOf } from './kitchen.ts';
import { confirmationsOf, mayDecide } from './limit-standing.ts';

export const limitsServices = { 'limits.list': listLimits, 'limits.confirm': confirmLimit } satisfies Services<'limits.list' | 'limits.confirm'>;

function listLimits(room: BookRoom): Output<'limits.list'> {
  const confirmed = confirmationsOf(room.book);
  const { decidingSetId } = kitchenOf(room.book);
  return { sets: room.catalogue.limits.sets.map((set) => setInfo(room, set, confirmed, decidingSetId)) };
}

function setInfo(room: BookRoom, set: LimitSet, confirmed: ReadonlyMap<string, Confirmation>, decidingSetId: string): SetInfo {
  return {
    setId: set.id, name: set.name, version: set.version, readInFull: set.readInFull,
    mayDecide: mayDecide(room.catalogue.limits, set, confirmed), decides: set.id === decidingSetId, note: set.note,
    checks: checkIdsOf(set).map((checkId) => checkInfo(room, set, checkId, confirmed)),
    noFigure: set.answers.flatMap((answer) => (answer.noFigure === undefined ? [] : `${answer.question}: ${answer.noFigure}`)),
  };
}

function checkInfo(room: BookRoom, set: LimitSet, checkId: string, confirmed: ReadonlyMap<string, Confirmation>): CheckInfo {
  const check = findCheck(room.catalogue.limits, checkId);
  if (check === undefined) throw new Error(`${set.id} names an unknown check ${checkId}`);
  const source = sourceOf(check, set);
  return {
    checkId, title: check.title, question: check.question, gate: check.gate, figures: checkFigures(check),
    source: sayingSource(source), mark: source.mark, confirmation: confirmed.get(checkId) ?? null,
  };
}

/** Publisher, title, section and, where it is known, the year. */
function sayingSource({ publisher, title, section, year }: Source): string {
  return [publisher, title, section, year === null ? '' : String(year)].filter((part) => part !== '').join(', ');
}

function confirmLimit(room: BookRoom, input: Parsed<'limits.confirm'>): Output<'limits.confirm'> {
  const check = findCheck(room.catalogue.limits, input.checkId);
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
