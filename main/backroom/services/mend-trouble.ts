/** What went wrong with a brine, read from what was typed; and the plan's faults told at what was typed. */
import type { Trouble as BrineTrouble } from '../../../app/brine/mend.ts';
import type { FishComposition } from '../../../app/brine/recipe.ts';
import type { TypedMass } from '../../../app/contract/requests/quantities.ts';
import type { Trouble } from '../../../app/contract/requests/tub.ts';
import { massFromText } from '../../../app/measures/mass.ts';
import type { Outcome } from '../../../app/measures/outcome.ts';
import { TICKS_PER_CELSIUS } from '../../../app/measures/temperature.ts';
import { Refusal, unwrap } from '../refusal.ts';
import { readTypedPercent } from './typed-percent.ts';
import { readTypedTemperature } from './typed-temperature.ts';

/**
 * Reads a trouble.
 * @param fish that is in the brine, raw
 * @throws Refusal INVALID_INPUT at the field under `trouble`
 */
export function readTrouble(trouble: Trouble, fish: FishComposition): BrineTrouble {
  switch (trouble.kind) {
    case 'too-strong':
    case 'too-weak': return { kind: trouble.kind, measured: readMeasured(trouble.measured), fish };
    case 'spilled': return { kind: 'spilled', left: { grams: gramsThere(trouble.left, 'left') } };
    case 'ran-out': return { kind: 'ran-out', ingredientId: trouble.ingredientId, thereGrams: gramsThere(trouble.there, 'there'), insteadId: trouble.insteadId ?? undefined };
    case 'wrong-salt': return trouble;
    case 'too-salty': return {
      kind: 'test-piece-too-salty', fish,
      testedPercent: readTypedPercent(trouble.testedPercent, ['trouble', 'testedPercent'], 'salt of the test piece').percent,
      wantedPercent: readTypedPercent(trouble.wantedPercent, ['trouble', 'wantedPercent'], 'salt that is wanted').percent,
    };
  }
}

type Measured = Extract<Trouble, { measured: unknown }>['measured'];

function readMeasured(measured: Measured): Extract<BrineTrouble, { measured: unknown }>['measured'] {
  if (measured.by === 'percent') return { by: 'percent', percent: readTypedPercent(measured.percent, ['trouble', 'measured', 'percent'], 'strength').percent };
  const { highTicks } = readTypedTemperature(measured.brine, ['trouble', 'measured', 'brine']);
  return { by: 'float', degrees: readTypedPercent(measured.degrees, ['trouble', 'measured', 'degrees'], 'float reading').percent, celsius: highTicks / TICKS_PER_CELSIUS };
}

/** Unlike other weights this one may be nothing: it is all gone. */
function gramsThere(typed: TypedMass, key: 'left' | 'there'): number {
  return /^0+(\.0*)?$/.test(typed.text.trim()) ? 0 : unwrap(massFromText(typed.text, typed.unit, `trouble.${key}`)).grams;
}

/** Fields of the arithmetic under the name that the contract has for them; anything else is of the trouble as a whole. */
const PATHS: Readonly<Record<string, readonly string[]>> = {
  'trouble.measured': ['trouble', 'measured'],
  'trouble.measured.percent': ['trouble', 'measured', 'percent'],
  'trouble.measured.degrees': ['trouble', 'measured', 'degrees'],
  'trouble.measured.celsius': ['trouble', 'measured', 'brine'],
  'trouble.left.grams': ['trouble', 'left'],
  'trouble.ingredientId': ['trouble', 'ingredientId'],
  'trouble.thereGrams': ['trouble', 'there'],
  'trouble.insteadId': ['trouble', 'insteadId'],
  'trouble.meantFormId': ['trouble', 'meantFormId'],
  'trouble.usedFormId': ['trouble', 'usedFormId'],
  'trouble.testedPercent': ['trouble', 'testedPercent'],
  'trouble.wantedPercent': ['trouble', 'wantedPercent'],
};

/** The value of a mend's arithmetic, or INVALID_INPUT at what was typed. */
export function unwrapMend<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  const { field = '', message, remedy } = outcome.problem;
  throw new Refusal('INVALID_INPUT', message, { remedy, fields: [{ path: [...(PATHS[field] ?? ['trouble'])], message }] });
}
