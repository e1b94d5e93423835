/** The thickness of a batch's pieces as typed. */
import { COLD_BRINE_CELSIUS } from '../../../app/brine/card.ts';
import { plainNumber } from '../../../app/brine/rounding.ts';
import { conditionsOf } from '../../../app/brine/soak-order.ts';
import type { Outcome } from '../../../app/measures/outcome.ts';
import { refuseInput } from './field-refusal.ts';

/** Pieces thinner than this share of the thickest take up salt so much faster that no one soak fits both (our choice of figure). */
const UNEVEN_SHARE = 0.6;

/** Refuses a thickness that no fillet has, and a thinnest piece thicker than the thickest; either may not be known. */
export function refuseWrongThickness(thickestMm: number | undefined, thinnestMm: number | undefined): void {
  if (thickestMm !== undefined) refuseThickness(thickestMm, 'thickestMm');
  if (thinnestMm === undefined) return;
  refuseThickness(thinnestMm, 'thinnestMm');
  if (thickestMm !== undefined && thinnestMm > thickestMm) {
    refuseInput(`The thinnest piece, ${plainNumber(thinnestMm, 1)} mm, is thicker than the thickest, ${plainNumber(thickestMm, 1)} mm.`, ['thinnestMm'], 'Swap them, or give both the same.');
  }
}

/** The thickness is judged with a soak that can’t be at fault itself. */
export function thicknessFault(thicknessMm: number): Extract<Outcome<never>, { ok: false }> | undefined {
  const judged = conditionsOf({ thickestMm: thicknessMm, skin: 'off', celsius: COLD_BRINE_CELSIUS, soakHours: 1, fatPercent: 0 });
  return judged.ok ? undefined : judged;
}

function refuseThickness(thicknessMm: number, field: 'thickestMm' | 'thinnestMm'): void {
  const fault = thicknessFault(thicknessMm);
  if (fault !== undefined) refuseInput(fault.problem.message, [field], fault.problem.remedy ?? 'Measure it again.');
}

/** A warning where the pieces are of too different sizes for one soak; none where they are not, or the thinnest is not known. */
export function unevenCaution(thickestMm: number | undefined, thinnestMm: number | null | undefined): string[] {
  if (thickestMm === undefined || thinnestMm === undefined || thinnestMm === null || thinnestMm >= UNEVEN_SHARE * thickestMm) return [];
  return [
    `The thinnest piece, ${plainNumber(thinnestMm, 1)} mm, is under 60 % of the thickest, ${plainNumber(thickestMm, 1)} mm: it will be much saltier. Grade the fish to one size and brine each size by itself (60 % is our choice; US FDA and IFT, Processing Parameters Needed to Control Pathogens in Cold-Smoked Fish, chapter VI, 2001: no dissimilar sizes in one brine; second-hand).`,
  ];
}
