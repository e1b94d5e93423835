/** Rules on the pack itself, and records that exist or do not. */
import { plainFinding, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase } from './judge-case.ts';
import type { BrineReuseCheck, FrozenBeforeSealCheck, PackBanCheck, ReviewCheck } from './limit-set.ts';
import { standingOf } from './on-file.ts';

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;

/** Frozen solid before sealing, by the marks. A chilled vacuum pack of fish is what the rule forbids. */
export function judgeFrozenBeforeSeal(_check: FrozenBeforeSealCheck, judged: JudgeCase, { words }: JudgeContext): Finding {
  const needed = 'Fish frozen solid before, during and after sealing, or a variance.';
  const { frozenMs, sealedMs, thawedMs } = judged;
  if (judged.store === 'refrigerated') return plainFinding('misses', 'Fish in a reduced-oxygen pack is kept chilled, without a variance.', needed);
  if (sealedMs === undefined || frozenMs === undefined) {
    const missing = sealedMs === undefined && frozenMs === undefined ? 'When it was frozen solid and when it was sealed are' : sealedMs === undefined ? 'When it was sealed is' : 'When it was frozen solid is';
    return plainFinding(judged.records.store.open && sealedMs === undefined ? 'open' : 'not-proven', `${missing} not marked.`, needed);
  }
  if (frozenMs > sealedMs) return plainFinding('misses', `Sealed at ${words.at(sealedMs)}, frozen solid only at ${words.at(frozenMs)}.`, needed);
  if (thawedMs !== undefined && thawedMs <= sealedMs) return plainFinding('not-proven', `Taken out of the freezer at ${words.at(thawedMs)}, sealed at ${words.at(sealedMs)}: nothing shows it frozen then.`, needed);
  // Within the same minute nothing tells which came first.
  if (frozenMs === sealedMs) return plainFinding('not-proven', `Sealed and frozen solid are both marked at ${words.at(sealedMs)}.`, needed);
  return plainFinding('meets', `Frozen solid at ${words.at(frozenMs)}, sealed at ${words.at(sealedMs)}.`);
}

/** A ban on vacuum packs; the batch's pack not being known proves neither. */
export function judgePackBan(_check: PackBanCheck, judged: JudgeCase): Finding {
  const needed = 'Another pack, or heat after sealing that kills all spores of C. botulinum.';
  if (judged.facts?.sporesKilledAfterSealing === true) return plainFinding('meets', 'Heated after sealing so that all spores are killed.');
  return judged.pack === undefined
    ? plainFinding('not-proven', 'How it is packed is not recorded.', needed)
    : plainFinding('misses', 'Smoked fish may not be vacuum packed here.', needed);
}

/** Reuse of brine, by the record. */
export function judgeBrineReuse(check: BrineReuseCheck, judged: JudgeCase, { words }: JudgeContext): Finding {
  const facts = judged.facts ?? {};
  const needed = check.batches === 1 ? 'New brine.' : `A brine used for ${check.batches} batches at most.`;
  const number = facts.brineBatchNumber ?? (facts.brineReused === false ? 1 : undefined);
  const isOpen = judged.records.soak.open && judged.records.soak.outMs === undefined;
  if (number === undefined) {
    if (facts.brineReused === true && check.batches === 1) return plainFinding('misses', 'The brine was used before.', needed);
    return plainFinding(isOpen ? 'open' : 'not-proven', 'Whether the brine was used before is not recorded.', needed);
  }
  if (number > check.batches) return plainFinding('misses', `This is batch ${number} of the same brine; ${check.batches} allowed.`, needed);
  if (check.freshMinutes === undefined || number === 1 || facts.brineFiltered === true) return plainFinding('meets', number === 1 ? 'The brine was new.' : `This is batch ${number} of the brine.`);
  const freshMs = check.freshMinutes * MINUTE_MS;
  if (facts.brineAgeMinutes === undefined) return plainFinding('not-proven', 'How old the brine was is not recorded.', needed);
  return facts.brineAgeMinutes * MINUTE_MS > freshMs
    ? plainFinding('misses', `The brine was ${words.lasting(facts.brineAgeMinutes * MINUTE_MS)} old and not filtered; ${words.lasting(freshMs)} allowed.`, 'Brine filtered free of bacteria, or new.')
    : plainFinding('meets', `This is batch ${number} of the brine, ${words.lasting(facts.brineAgeMinutes * MINUTE_MS)} old.`);
}

/** A trained person's review within so many days of the record; the reviewer's training certificate was valid that day. */
export function judgeReview(check: ReviewCheck, judged: JudgeCase, { words }: JudgeContext): Finding {
  const review = judged.facts?.review;
  const needed = `The record reviewed by a trained person within ${check.days} days.`;
  if (review?.reviewedMs === undefined) return plainFinding(review !== undefined && 'mayCome' in review ? 'open' : 'not-proven', 'The record has not been reviewed.', needed);
  const days = (review.reviewedMs - review.recordedMs) / DAY_MS;
  if (days > check.days) return plainFinding('misses', `Reviewed ${Math.ceil(days)} days after it was made; ${check.days} allowed.`, needed);
  const reviewer = review.reviewer?.trim() ?? '';
  if (reviewer === '') return plainFinding('not-proven', `Reviewed within ${check.days} days; by whom is not recorded.`, needed);
  const certificates = (judged.facts?.onFile ?? []).filter((record) => record.holder.trim().toLowerCase() === reviewer.toLowerCase());
  const training = standingOf(certificates, 'training', { fromMs: review.reviewedMs, toMs: review.reviewedMs }, words);
  return training.isValid
    ? plainFinding('meets', `Reviewed by ${reviewer} within ${check.days} days. ${training.text}`)
    : plainFinding('not-proven', `Reviewed by ${reviewer} within ${check.days} days. ${training.text}`, `The training certificate of ${reviewer}, on file and valid.`);
}
