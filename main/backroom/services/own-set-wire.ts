/** A kitchen's own set as it crosses the contract. */
import type { OwnSet as OwnSetWire } from '../../../app/contract/requests/limits-office.ts';
import { findCheck } from '../../../app/limits/limit-set.ts';
import type { Stored } from '../book/stored.ts';
import { checkFigures } from './check-figures.ts';
import { limitsOf, type LimitRoom } from './own-set-book.ts';

/** Each changed check with its published figures and the set's own. */
export function ownSetWire(room: LimitRoom, { body, paperId }: Stored<'ownSets'>): OwnSetWire {
  const limits = limitsOf(room);
  const figuresOfCheck = (checkId: string): string => {
    const check = findCheck(limits, checkId);
    return check === undefined ? '' : checkFigures(check);
  };
  return {
    setId: body.id, name: body.name, version: body.version, baseSetId: body.base.setId, effectiveFrom: body.effectiveFrom, paperId,
    changes: body.changes.map(({ checkId, ownId, way }) => ({
      checkId, was: figuresOfCheck(checkId), is: figuresOfCheck(ownId), stricter: way !== 'loosened',
    })),
  };
}
