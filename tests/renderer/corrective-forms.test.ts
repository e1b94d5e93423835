import { describe, expect, it } from 'vitest';
import type { BatchWeight } from '../../app/contract/requests/corrective.ts';
import type { CheckResultWire, GateLine } from '../../app/contract/requests/verdict.ts';
import { correctiveInput, startDraft, unmetChecks } from '../../renderer/places/packing-table/corrective-draft.ts';
import { dueGates } from '../../renderer/places/smokehouse/due-gates.ts';
import { yieldsOf } from '../../renderer/readings/batch-yield.ts';

function checkOf(checkId: string, verdict: CheckResultWire['verdict']): CheckResultWire {
  return { checkId, title: checkId, question: 'chamber', gate: 'pack', verdict, reason: '', spans: [], pieces: [], needed: '', source: '', mark: 'read', confirmation: null };
}
function weightOf(what: BatchWeight['what'], grams: number): BatchWeight {
  return { what, mass: { text: String(grams), unit: 'g', grams }, atMs: 0, initials: 'HA' };
}
function gateOf(gate: GateLine['gate'], state: GateLine['state']): GateLine {
  return { gate, state, line: '', blocking: [], later: [], ways: [] };
}

describe('a corrective action as it is typed', () => {
  const checks = [checkOf('A', 'not-proven'), checkOf('B', 'meets'), checkOf('C', 'misses'), checkOf('D', 'open'), checkOf('E', 'meets-within-error'), checkOf('F', 'no-figure')];
  it('is about what was missed first, then what isn’t proven, never about what is met or still goes on', () => {
    expect(unmetChecks(checks).map((check) => check.checkId)).toEqual(['C', 'A', 'F']);
  });
  it('starts with what is known, and is not sent before someone says what becomes of the fish', () => {
    const draft = startDraft(unmetChecks(checks), 'walk-in, left', 'Cal Hurst');
    expect(draft).toMatchObject({ checkId: 'C', keptWhere: 'walk-in, left', evaluatedBy: 'Cal Hurst', disposition: null, cause: '' });
    expect(correctiveInput('b1', draft)).toBeNull();
    expect(correctiveInput('b1', { ...draft, disposition: 'destroy', cause: 'cold fire' })).toEqual({
      batchId: 'b1', checkId: 'C', cause: 'cold fire', quantity: '', keptWhere: 'walk-in, left', evaluatedBy: 'Cal Hurst', evaluation: '', disposition: 'destroy', fix: '',
    });
  });
});

describe('the yield of a batch', () => {
  it('is of brined weight, by the last weight of each kind', () => {
    expect(yieldsOf(1000, [weightOf('brined', 1300), weightOf('brined', 1050), weightOf('finished', 735)])).toEqual({ brinedPercent: 105, finishedPercent: 70, isOfBrined: true });
  });
  it('is of fillet weight where it was not weighed after the brine, and says so; nothing without weights', () => {
    expect(yieldsOf(1000, [weightOf('finished', 700)])).toEqual({ brinedPercent: null, finishedPercent: 70, isOfBrined: false });
    expect(yieldsOf(1000, [])).toEqual({ brinedPercent: null, finishedPercent: null, isOfBrined: false });
  });
});

describe('the gate that a load stands before', () => {
  it('is the pack gate once the fish is in, never the one after it', () => {
    const gates = [gateOf('pack', 'not-yet'), gateOf('leave', 'not-yet')];
    expect(dueGates(gates, true).map((gate) => gate.gate)).toEqual(['pack']);
    expect(dueGates([...gates].slice(0, 1), false).map((gate) => gate.gate)).toEqual(['pack']);
  });
});
