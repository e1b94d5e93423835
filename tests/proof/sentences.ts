/** All that is said of a drawn case: verdicts, sentences, spans and pieces of a check; units, gates and next readings of a set. */
import { mayPass } from '../../app/limits/gates.ts';
import { holdsNamed, judgeCheck } from '../../app/limits/judge.ts';
import { contextOf, judgeSet } from '../../app/limits/judge-set.ts';
import type { JudgeCase } from '../../app/limits/judge-case.ts';
import { GATES } from '../../app/limits/limit-set.ts';
import { nextCoolingReading, nextFreezerReading, nextHoldReading } from '../../app/limits/next-reading.ts';
import { coolingChecks, pieceNeed } from '../../app/limits/piece-need.ts';
import { clockWords, minuteWords } from '../../app/limits/words.ts';
import { needCheck, needSet } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';
import { Dice } from './dice.ts';
import { drawBatch, drawUntilSolid } from './draw/whole-batch.ts';
import { PROOF_KINDS } from './kinds.ts';

const MINUTE_MS = 60_000;
const HOLDS = holdsNamed(limitBook, ['HOT-145-30']);
const SETS = ['lodge-default', 'us-fda-sale', 'us-food-code', 'ak', 'mi-plant', 'me', 'ny-plant', 'ny-food-service', 'or-retail', 'wi', 'ca-on', 'eu-uk', 'home'];
const PAPERS = limitBook.checks.filter(({ kind }) => ['presence', 'review', 'retention', 'permission', 'calibration', 'label', 'film', 'pack-ban', 'frozen-before-seal', 'unmeasured'].includes(kind)).map(({ id }) => id);

/** What a drawn case can be of: the kinds of the proof, and others that only what they say is kept of. */
export const SAID_OF = [...PROOF_KINDS.map(({ name }) => name), 'until-solid', 'paper', 'set-hot', 'set-cold', 'next'];

/** Every line that is said of the case of one seed. */
export function saidOf(name: string, seed: number): string[] {
  const dice = new Dice(seed);
  const kind = PROOF_KINDS.find((one) => one.name === name);
  if (kind !== undefined) {
    const drawn = kind.draw(dice);
    return linesOfCheck(drawn.checkId, drawn.batch, drawn);
  }
  const alone = { together: false, piecesAsked: 1 };
  if (name === 'until-solid') {
    const [checkId, limitF, hours] = dice.pick([['PARA-FREEZE-B', -31, 15], ['PARA-FREEZE-C', -31, 24]] as const);
    return linesOfCheck(checkId, drawUntilSolid(dice, limitF, hours), alone);
  }
  if (name === 'paper') return linesOfCheck(dice.pick(PAPERS), drawBatch(dice, dice.pick(['hot', 'cold'])), alone);
  if (name === 'next') return linesOfNext(dice, drawBatch(dice, 'hot'));
  return linesOfSet(dice, drawBatch(dice, name === 'set-hot' ? 'hot' : 'cold'));
}

function minuteOf(ms: number | undefined): string {
  return ms === undefined ? '–' : String(ms / MINUTE_MS);
}

function linesOfCheck(checkId: string, batch: JudgeCase, terms: { readonly together: boolean; readonly piecesAsked: number }): string[] {
  const result = judgeCheck(needCheck(checkId), batch, { words: minuteWords('F'), alone: true, holds: HOLDS, together: terms.together, probesAsked: terms.piecesAsked });
  const figures = [result.provenMinutes, result.possibleMinutes, result.shortestMinutes, result.longestMinutes].map((value) => value ?? '–').join(' ');
  return [
    `${checkId} ${result.verdict} ${figures}`, result.reason, result.needed,
    ...result.spans.map(({ fromMs, toMs, counts, why }) => `${minuteOf(fromMs)} to ${minuteOf(toMs)} ${counts ? 'counts' : 'does not'}: ${why}`),
    ...result.pieces.map(({ name, verdict, text }) => `${name} ${verdict}: ${text}`),
  ];
}

function linesOfSet(dice: Dice, batch: JudgeCase): string[] {
  const set = needSet(dice.pick(SETS));
  const words = clockWords('F', (ms) => `clock ${ms / MINUTE_MS}`);
  const result = judgeSet(set, batch, limitBook, { words, paper: dice.once(2) });
  const plan = { pack: batch.pack ?? 'vacuum', store: batch.store ?? 'refrigerated' };
  return [
    `${set.id} ${result.verdict}`, result.words, ...result.notJudgedHere,
    ...result.units.map(({ question, gate, verdict, deciding, checks }) => `${question} at ${gate} ${verdict} by ${deciding.checkId} of ${checks.map(({ checkId }) => checkId).join(', ')}: ${deciding.reason}`),
    ...GATES.map((gate) => mayPass(gate, plan, result)).flatMap(({ gate, verdict, needsInitials, blocking, later, ways, line }) =>
      [`${gate} ${verdict}${needsInitials ? ' with initials' : ''}: ${line}`, ...blocking.map(({ checkId, verdict: blocked, reason, needed }) => `${checkId} ${blocked}: ${reason} ${needed}`), ...later, ...ways]),
  ];
}

function linesOfNext(dice: Dice, drawn: JudgeCase): string[] {
  const batch: JudgeCase = { ...drawn, records: { ...drawn.records, process: { ...drawn.records.process, open: true }, freezer: { ...drawn.records.freezer, open: true } } };
  const set = needSet(dice.pick(SETS));
  const words = clockWords('F', (ms) => `clock ${ms / MINUTE_MS}`);
  const context = contextOf(set, batch, limitBook, words);
  const coolings = coolingChecks(set, batch, limitBook);
  const nowMs = dice.whole(0, 500) * MINUTE_MS;
  const freezing = needCheck('PARA-FREEZE-A');
  const [hold] = context.holds;
  const [cooling] = coolings;
  const pieces = batch.points.filter(({ role, record }) => role === 'piece' && record !== 'soak');
  return [`${set.id} at ${nowMs / MINUTE_MS}`, ...pieces.flatMap((point) => {
    const need = pieceNeed(point, batch, context, coolings);
    const next = [
      hold === undefined ? undefined : nextHoldReading(hold, point, batch, context, nowMs),
      cooling === undefined ? undefined : nextCoolingReading(cooling, point, batch, context, nowMs),
      freezing.kind === 'freeze' ? nextFreezerReading(freezing, point, batch, context, nowMs) : undefined,
    ];
    return [`${need.pointName} ${minuteOf(need.lastAtMs)} ${need.lastTicks ?? '–'} ${need.provenMinutes ?? '–'} of ${need.requiredMinutes ?? '–'}: ${need.text}`,
      ...next.flatMap((reading) => (reading === undefined ? ['–'] : [`${minuteOf(reading.dueMs)}${reading.isOverdue ? ' overdue' : ''}: ${reading.text}`]))];
  })];
}
