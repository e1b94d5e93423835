/**
 * The slab in a bath of limited size against a second solution that knows none of its formulas: the
 * slab cut into cells, the bath a stirred box, and both integrated in time by the library odex
 * (E. Hairer and G. Wanner, ODEX). Its figures are computed here, by that library (computed).
 */
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { centreApproach, finiteBathApproach } from '../../app/brine/uptake.ts';

interface Integrator {
  maxSteps: number;
  relativeTolerance: number;
  absoluteTolerance: number;
  solve(slopes: (x: number, y: number[]) => number[], from: number, initial: number[], to: number): { readonly y: number[]; readonly outcome: number };
}

/** The package carries TypeScript that our strictness refuses, so its JavaScript is taken and described here. */
const require = createRequire(import.meta.url);
const { Solver }: { readonly Solver: new (components: number) => Integrator } = require('odex');
const CONVERGED = 0;
const CELLS = 60;
/** Depth in roots of the Fourier number that salt does not reach: erfc(3.5) is below 1e-6. */
const DEEPEST = 7;

interface Approaches {
  readonly mean: number;
  readonly middle: number;
  readonly total: number;
}

/**
 * Half a slab of thickness 1 in equal cells from the brine inwards, and the bath last; concentration 0
 * in the slab and 1 in the bath at the start. Where the time is too short for salt to go deep, cells
 * are laid only as deep as it goes.
 */
function integrate(fourier: number, alpha: number): Approaches {
  const depth = Math.min(1, DEEPEST * Math.sqrt(fourier));
  const width = depth / CELLS;
  function slopes(_time: number, y: number[]): number[] {
    const rises: number[] = [];
    let flowIn = ((y[CELLS] ?? NaN) - (y[0] ?? NaN)) / (width / 2);
    const drain = -flowIn / alpha;
    for (let cell = 0; cell < CELLS; cell += 1) {
      const flowOut = cell === CELLS - 1 ? 0 : ((y[cell] ?? NaN) - (y[cell + 1] ?? NaN)) / width;
      rises.push((flowIn - flowOut) / width);
      flowIn = flowOut;
    }
    rises.push(drain);
    return rises;
  }
  const solver = new Solver(CELLS + 1);
  solver.maxSteps = 20_000;
  solver.relativeTolerance = 1e-7;
  solver.absoluteTolerance = 1e-9;
  const { y, outcome } = solver.solve(slopes, 0, [...Array.from({ length: CELLS }, () => 0), 1], fourier);
  if (outcome !== CONVERGED) throw new Error(`the integration ended with ${outcome}`);
  const equilibrium = alpha / (1 + alpha);
  const inSlab = y.slice(0, CELLS).reduce((sum, each) => sum + width * each, 0);
  return { mean: inSlab / equilibrium, middle: depth < 1 ? 0 : (y[CELLS - 1] ?? NaN) / equilibrium, total: inSlab + alpha * (y[CELLS] ?? NaN) };
}

describe('a slab in a bath of limited size beside an integration by a library', () => {
  test.each([0.5, 1, 2, 5, 20])('with %d of water to one of the fish’s the mean is within half a per cent and the middle within 0.003', (alpha) => {
    for (const fourier of [0.005, 0.02, 0.04, 0.1, 0.3, 1]) {
      const integrated = integrate(fourier, alpha);
      expect(Math.abs(integrated.total / alpha - 1), 'salt kept').toBeLessThan(1e-6);
      expect(Math.abs(finiteBathApproach(fourier, alpha) / integrated.mean - 1), `mean at ${fourier}`).toBeLessThan(0.005);
      expect(Math.abs(centreApproach(fourier, alpha) - integrated.middle), `middle at ${fourier}`).toBeLessThan(0.003);
    }
  });
});
