/** Releasing, holding and rejecting a batch: a named person's decision on the verdict as it stood. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Decision } from '../../../app/contract/requests/verdict.ts';
import type { StoredBatch } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseMixedLots } from './correction-lots.ts';
import { composeCase } from './judging/compose.ts';
import { type BatchJudgement, judgeBatch } from './judging/judge-batch.ts';
import { keepJudgement } from './judgements.ts';
import { packsOf } from './packs-of-batch.ts';
import { nameOf, standingDecision } from './release.ts';
import { sayInstant } from './when.ts';
import { openItemsOf } from './work-items.ts';
import { closeItem } from './worklist.ts';

type Deciding = Parsed<'batch.decide'>;

const DONE: Record<Deciding['decision'], string> = { release: 'Released', hold: 'Put on HOLD', reject: 'Rejected' };
const PACKED: Record<Deciding['pack'], string> = { vacuum: 'vacuum packed', air: 'air packed', unpacked: 'served unpacked' };

/**
 * Keeps a decision with the digest of the judgement it was made on. Holding and rejecting are always possible
 * while the batch isn't rejected; releasing only when the pack gate lets the batch through as it will be kept.
 * @throws Refusal RULE_BLOCKS: rejected before, the gate's own reasons, initials not given, packs sealed another way, lots that
 *   differ since one was corrected
 */
export function decideBatch(room: BookRoom, input: Deciding): Decision {
  const batch = room.book.shelf('batches').need(input.batchId);
  refuseAfterRejection(room, batch);
  const judgement = judgeBatch(room, batch, { pack: input.pack, store: input.store });
  if (input.decision === 'release') {
    refuseMixedLots(room, batch);
    refuseOtherPack(room, batch, input);
    refuseClosedGate(batch, judgement, input.initialsForError);
  }
  const before = standingDecision(room, batch.id) ?? null;
  const initialsForError = input.decision === 'release' && input.initialsForError && judgement.gates.pack.state === 'initials';
  const person = actingPerson(room);
  const decision: Decision = {
    id: room.newId(), decision: input.decision, reason: input.reason, initials: person.initials, personId: person.id, atMs: room.clock.nowMs(),
    pack: input.pack, store: input.store, keptWhere: input.keptWhere,
    verdictWords: judgement.deciding.words, judgementDigest: judgement.digest, initialsForError,
  };
  room.book.shelf('decisions').put({ batchId: batch.id, ...decision });
  // What came in live is vouched for by the entry of the decision that was made on it.
  for (const pointId of livePointsOf(room, batch)) room.book.closeLive(pointId);
  const entry = room.book.record({
    kind: `batch.${input.decision}`, subjectId: batch.id, happenedAtMs: decision.atMs,
    summary: summaryOf(batch, decision), why: input.reason,
    before, after: decision,
  });
  keepJudgement(room, batch, { pack: input.pack, store: input.store }, entry);
  for (const item of openItemsOf(room, batch.id).filter(({ what }) => what === 'decide-again')) closeItem(room, item, summaryOf(batch, decision));
  room.changed('verdict', [batch.id]);
  room.changed('batch', [batch.id]);
  return decision;
}

/** Points of the batch with readings that only came in live so far. */
function livePointsOf(room: BookRoom, batch: StoredBatch): string[] {
  const waiting = new Set(room.book.liveWaiting().map(({ pointId }) => pointId));
  return composeCase(room, batch, { pack: batch.pack, store: batch.store }).plans.flatMap(({ taken }) => (taken !== null && waiting.has(taken.pointId) ? [taken.pointId] : []));
}

function refuseAfterRejection(room: BookRoom, batch: StoredBatch): void {
  const standing = standingDecision(room, batch.id);
  if (standing?.decision !== 'reject') return;
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} was rejected by ${standing.initials} at ${sayInstant(room, standing.atMs)}: ${standing.reason}`, {
    remedy: 'A rejection is final: a rejected batch is not released or held again.',
  });
}

/** Packs are labelled as they were sealed; the same fish can't be released as something else beside them. */
function refuseOtherPack(room: BookRoom, batch: StoredBatch, input: Deciding): void {
  const packs = packsOf(room, batch.id);
  const before = room.book.shelf('decisions').where('batchId', batch.id).filter((decision) => decision.decision === 'release').at(-1);
  if (packs.length === 0 || before === undefined || (before.pack === input.pack && before.store === input.store)) return;
  throw new Refusal('RULE_BLOCKS', `${packs.length} packs of ${nameOf(batch)} were sealed as ${PACKED[before.pack]}, ${before.store}.`, {
    remedy: `Release it as ${PACKED[before.pack]}, ${before.store}, or hold it.`,
  });
}

function refuseClosedGate(batch: StoredBatch, { deciding, gates: { pack: gate } }: BatchJudgement, initialsForError: boolean): void {
  if (gate.state === 'may') return;
  if (gate.state === 'initials') {
    if (initialsForError) return;
    const close = deciding.checks.filter((check) => check.verdict === 'meets-within-error').map((check) => `${check.title}.`);
    throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} meets only within the thermometer’s error: ${close.join(' ')}`, {
      remedy: 'Look at the record and give your initials for that, or hold the batch.',
    });
  }
  const reasons = gate.blocking.map(({ checkId, reason }) => `${checkId}: ${reason}`).join(' ');
  const needed = gate.blocking.map((one) => one.needed).filter((text, index, all) => text !== '' && all.indexOf(text) === index).join(' ');
  const ways = gate.ways.length === 0 ? '' : `What may be done: ${gate.ways.join(' ')}`;
  throw new Refusal('RULE_BLOCKS', `${nameOf(batch)} can’t be released. ${gate.line} ${reasons}`.trim(), {
    remedy: [needed === '' ? '' : `Needed: ${needed}`, ways, gate.state === 'not-yet' ? 'Come back when the record is complete, or hold the batch.' : 'Hold the batch, or reject it.'].filter((text) => text !== '').join(' '),
  });
}

function summaryOf(batch: StoredBatch, decision: Decision): string {
  const how = decision.decision === 'release' ? ` to be ${PACKED[decision.pack]}${decision.pack === 'unpacked' ? '' : `, ${decision.store}`}` : '';
  const where = decision.decision === 'hold' && decision.keptWhere !== '' ? `, kept in ${decision.keptWhere}` : '';
  const within = decision.initialsForError ? `; ${decision.initials} initialled what meets within the thermometer’s error` : '';
  return `${DONE[decision.decision]} ${nameOf(batch)}${how}${where}${within}: ${decision.verdictWords}`;
}
