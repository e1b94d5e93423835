/** The kitchen's own sets in a list, and which set decides guests' catch and bought fish. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';
import { figuresOf } from '../../../app/limits/figures.ts';
import { findSet } from '../../../app/limits/limit-set.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';
import { needDecidingSet } from './limit-standing.ts';
import { isOwnSet, kitchenDay, limitsOf, versionInForce } from './own-set-book.ts';
import { ownSetWire } from './own-set-wire.ts';

export function listOwnSets(room: BookRoom): Output<'limits.own'> {
  const limits = limitsOf(room);
  const published = room.catalogue.limits.checks.flatMap((check) => {
    const figures = figuresOf(check);
    return figures.length === 0 ? [] : [{ checkId: check.id, figures }];
  });
  const byId = new Map(published.map((one) => [one.checkId, one.figures]));
  const own = limits.sets.filter(isOwnSet).flatMap((set) => set.changes.map(({ checkId, ownId }) => ({ checkId: ownId, figures: byId.get(checkId) ?? [] })));
  return { sets: room.book.shelf('ownSets').all().map((stored) => ownSetWire(room, stored)), decidingFor: decidingForOf(kitchenOf(room.book)), figures: [...published, ...own] };
}

/** The set chosen for each kind of fish; the kitchen's one where no other was chosen. */
export function decidingForOf({ decidingFor, decidingSetId }: Kitchen): NonNullable<Kitchen['decidingFor']> {
  return decidingFor ?? { guest: decidingSetId, supplier: decidingSetId };
}

/** The id of the set that decides a batch made today of this fish: of an own set the version in force. */
export function decidingSetIdFor(room: BookRoom, sourceKind: 'guest' | 'supplier'): string {
  return inForceToday(room, decidingForOf(kitchenOf(room.book))[sourceKind]);
}

/**
 * Chooses the set that decides new batches of guests' catch and of bought fish. Batches already made keep theirs.
 * @throws Refusal NOT_FOUND or RULE_BLOCKS for a set that may not decide here, or has no version in force today
 */
export function decideFor(room: BookRoom, input: Parsed<'limits.decideFor'>): Output<'limits.decideFor'> {
  const names = (['guest', 'supplier'] as const).map((kind) => needDecidingSet(room, inForceToday(room, input[kind]), [kind]).name);
  const before = kitchenOf(room.book);
  const kitchen: Kitchen = { ...before, decidingFor: input, ...(input.guest === input.supplier ? { decidingSetId: input.guest } : {}) };
  room.book.shelf('kitchen').put({ id: 'kitchen', ...kitchen });
  room.book.record({
    kind: 'limits.decideFor', subjectId: 'kitchen', happenedAtMs: room.clock.nowMs(),
    summary: `New batches of guests’ catch are decided by “${names[0]}”, of bought fish by “${names[1]}”.`, before, after: kitchen,
  });
  room.changed('office', ['kitchen']);
  room.changed('limits', []);
  room.changed('book', []);
  return input;
}

function inForceToday(room: BookRoom, setId: string): string {
  const limits = limitsOf(room);
  const set = findSet(limits, setId);
  return set === undefined ? setId : versionInForce(limits, set, kitchenDay(room)).id;
}
