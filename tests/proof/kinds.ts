/** The kinds of check that are worked out twice: how a case is drawn, and what the second opinion on it is. */
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import type { Check, CheckKind, HoldCheck } from '../../app/limits/limit-set.ts';
import { needCheck } from '../support/judge-cases.ts';
import type { Dice } from './dice.ts';
import { drawCooling } from './draw/cooling.ts';
import { drawBefore, drawFreezing, drawHeat, drawStore, drawUnder } from './draw/heat-and-cold.ts';
import { drawSamples, drawSoak, drawTotalSalt } from './draw/soak-and-salt.ts';
import { batchWith } from './draw/record.ts';
import { judgeCeilingAgain } from './naive/ceiling.ts';
import { judgeDescentAgain } from './naive/descent.ts';
import { judgeFreezeAgain, judgeHoldAgain } from './naive/hold.ts';
import { judgeBrineStartAgain, judgeProbesAgain, judgeSoakRoomAgain } from './naive/pieces-and-soak.ts';
import type { Opinion } from './naive/record.ts';
import { judgeNitriteAgain, judgeNoNitriteAgain, judgeSaltAgain } from './naive/salt.ts';

export interface ProofCase {
  readonly checkId: string;
  readonly batch: JudgeCase;
  /** How many pieces the set asks, and whether their hold is one. */
  readonly piecesAsked: number;
  readonly together: boolean;
}

export interface ProofKind {
  readonly name: string;
  draw(dice: Dice): ProofCase;
  /** The verdict and figures with every limit moved to the strict side by so many ticks. */
  judgeAgain(drawn: ProofCase, shiftTicks: number): Opinion;
}

const SALMON = 'Oncorhynchus nerka';
const LAKE_TROUT = 'Salvelinus namaycush';
const CHUB = 'Coregonus hoyi';

export const PROOF_KINDS: readonly ProofKind[] = [
  kindOf('hold', (dice) => {
    const checkId = dice.pick(['HOT-145-30', 'HOT-145-30', 'HOT-150-30-HOME', 'HOT-63-30']);
    return alone(checkId, drawHeat(dice, { 'HOT-150-30-HOME': 150, 'HOT-63-30': 145.4 }[checkId] ?? 145));
  }, (drawn, shift) => judgeHoldAgain(checkOf(drawn.checkId, 'hold'), drawn.batch, drawn, shift)),
  kindOf('hold-together', (dice) => ({ ...alone('HOT-145-30', drawHeat(dice)), piecesAsked: dice.whole(1, 3), together: true }),
    (drawn, shift) => judgeHoldAgain(checkOf(drawn.checkId, 'hold'), drawn.batch, drawn, shift)),
  kindOf('probe-count', (dice) => alone(dice.pick(['HOT-PROBES-1', 'HOT-PROBES-3']), drawHeat(dice)),
    (drawn) => judgeProbesAgain(checkOf(drawn.checkId, 'probe-count'), drawn.batch, usualHold())),
  kindOf('freeze', (dice) => {
    const [checkId, limitF, hours] = dice.pick([['PARA-FREEZE-A', -4, 168], ['PARA-EU-20-24', -4, 24], ['PARA-EU-35-15', -31, 15]] as const);
    return alone(checkId, drawFreezing(dice, limitF, hours));
  }, (drawn, shift) => judgeFreezeAgain(checkOf(drawn.checkId, 'freeze'), drawn.batch, shift)),
  kindOf('ceiling-timed', (dice) => {
    const [checkId, limitF, hours] = dice.pick([['COLD-90-20', 90, 20], ['COLD-50-24', 50, 24]] as const);
    return alone(checkId, drawUnder(dice, 'chamber', 'process', limitF, hours));
  }, judgeAsCeiling),
  kindOf('ceiling', (dice) => {
    const [checkId, limitF] = dice.pick([['COLD-FDA-90', 90], ['COLD-ON', 89.96]] as const);
    return alone(checkId, drawUnder(dice, 'chamber', 'process', limitF, 10));
  }, judgeAsCeiling),
  kindOf('ceiling-room', (dice) => {
    const batch = drawUnder(dice, 'room', 'soak', 38, 10);
    return alone('DRYSALT-38', { ...batch, facts: { cure: 'dry' } });
  }, judgeAsCeiling),
  kindOf('ceiling-store', (dice) => {
    const [checkId, limitF] = dice.pick([['STORE-38', 38], ['STORE-40', 40], ['STORE-40-HOME', 40], ['STORE-4C-ON', 39.2]] as const);
    return alone(checkId, drawStore(dice, limitF, 'refrigerated'));
  }, judgeAsCeiling),
  kindOf('ceiling-frozen', (dice) => {
    const batch = drawStore(dice, 0, 'frozen');
    return alone('FROZEN-0F', stretched(batch, dice.pick([1, 10, 24])));
  }, judgeAsCeiling),
  kindOf('ceiling-raw', (dice) => {
    const [checkId, role, record, limitF] = dice.pick([['RAW-38', 'piece', 'raw', 38], ['RAW-40', 'store', 'raw', 40], ['THAW-38', 'piece', 'thaw', 38]] as const);
    return alone(checkId, drawBefore(dice, role, record, limitF));
  }, judgeAsCeiling),
  kindOf('descent-shared', (dice) => alone('COOL-FC', drawCooling(dice, { limitsF: [135, 70, 41], minutes: [120, 360] })), judgeAsDescent),
  kindOf('descent-separate', (dice) => {
    const [checkId, limitsF] = dice.pick([['COOL-AFDO', [140, 70, 40]], ['COOL-FDA12', [135, 70, 40]], ['COOL-AK-FS', [135, 70, 41]]] as const);
    return alone(checkId, drawCooling(dice, { limitsF, minutes: [120, 360] }));
  }, judgeAsDescent),
  kindOf('descent-from-mark', (dice) => {
    const batch = drawCooling(dice, { limitsF: [135, 50, 38], minutes: [180, 720] });
    return alone('COOL-CHUB', { ...batch, species: CHUB, saltSamples: [{ saltPercent: '3', moisturePercent: '62', nitritePpm: '120' }] });
  }, judgeAsDescent),
  kindOf('brine-start', (dice) => alone('BRINE-START-60', drawSoak(dice, 60, 38)),
    (drawn, shift) => judgeBrineStartAgain(checkOf(drawn.checkId, 'brine-start'), drawn.batch, shift)),
  kindOf('soak-room', (dice) => alone('BRINE-4H-38', drawSoak(dice, 60, 38)),
    (drawn, shift) => judgeSoakRoomAgain(checkOf(drawn.checkId, 'soak-room'), drawn.batch, shift)),
  kindOf('water-phase-salt', (dice) => {
    const percent = { 'WPS-ROP-3.5': 3.5, 'WPS-ROP-3.0-N': 3, 'WPS-AIR-2.5': 2.5, 'WPS-AIR-3.0-MI': 3 };
    const checkId = dice.pick(['WPS-ROP-3.5', 'WPS-ROP-3.0-N', 'WPS-AIR-2.5', 'WPS-AIR-3.0-MI'] as const);
    const batch = saltBatch(drawSamples(dice, percent[checkId], 200));
    return alone(checkId, { ...batch, pack: checkId.includes('AIR') ? 'air' : 'vacuum', facts: { nitriteUsed: true } });
  }, (drawn) => judgeSaltAgain(checkOf(drawn.checkId, 'water-phase-salt'), drawn.batch)),
  kindOf('total-salt', (dice) => alone('SALT-9-CA', { ...saltBatch(drawTotalSalt(dice, 9)), pack: 'vacuum' }),
    (drawn) => judgeSaltAgain(checkOf(drawn.checkId, 'total-salt'), drawn.batch)),
  kindOf('nitrite-maximum', (dice) => alone('NIT-200', saltBatch(drawSamples(dice, 3.5, 200))),
    (drawn) => judgeNitriteAgain(checkOf(drawn.checkId, 'nitrite-maximum'), drawn.batch)),
  kindOf('nitrite-none', (dice) => alone('NIT-NONE', { ...saltBatch(drawSamples(dice, 3.5, dice.pick([0, 200]))), species: LAKE_TROUT }),
    (drawn) => judgeNoNitriteAgain(drawn.batch)),
];

function kindOf(name: string, draw: ProofKind['draw'], judgeAgain: ProofKind['judgeAgain']): ProofKind {
  return { name, draw, judgeAgain };
}

function alone(checkId: string, batch: JudgeCase): ProofCase {
  return { checkId, batch, piecesAsked: 1, together: false };
}

function saltBatch(saltSamples: JudgeCase['saltSamples']): JudgeCase {
  return batchWith([], { species: SALMON, store: 'refrigerated', saltSamples });
}

/** The same record with its hours made longer. */
function stretched(batch: JudgeCase, times: number): JudgeCase {
  const points = batch.points.map((point) => ({ ...point, readings: point.readings.map((reading) => ({
    ...reading, atMs: reading.atMs * times, ...(reading.coversSinceMs === undefined ? {} : { coversSinceMs: reading.coversSinceMs * times }),
  })) }));
  return { ...batch, points };
}

function judgeAsCeiling(drawn: ProofCase, shiftTicks: number): Opinion {
  return judgeCeilingAgain(checkOf(drawn.checkId, 'ceiling'), drawn.batch, shiftTicks);
}

function judgeAsDescent(drawn: ProofCase, shiftTicks: number): Opinion {
  return judgeDescentAgain(checkOf(drawn.checkId, 'descent'), drawn.batch, [usualHold()], shiftTicks);
}

function usualHold(): HoldCheck {
  return checkOf('HOT-145-30', 'hold');
}

function checkOf<K extends CheckKind>(checkId: string, kind: K): Extract<Check, { kind: K }> {
  const check = needCheck(checkId);
  if (!isKind(check, kind)) throw new Error(`${checkId} is a ${check.kind}, not a ${kind}`);
  return check;
}

function isKind<K extends CheckKind>(check: Check, kind: K): check is Extract<Check, { kind: K }> {
  return check.kind === kind;
}
