/** Which questions a batch raises, which of them a set must answer, and when each is due. */
import type { JudgeCase } from './judge-case.ts';
import type { Gate, Question } from './limit-set.ts';

/** The gate at which a question without a check is due. */
export const QUESTION_GATES: Readonly<Record<Question, Gate>> = {
  raw: 'brine', thaw: 'brine', brine: 'smoke', dry: 'smoke', chamber: 'pack', cooling: 'pack', exposure: 'pack',
  parasite: 'pack', salt: 'pack', pack: 'pack', store: 'leave', record: 'leave',
};

/**
 * Whether the batch raises the question at all. Thaw: not for fish never frozen. Dry: not in a hot
 * process, nor for fish dried in the chamber itself. Cooling: not of a cold-smoked batch. Salt, as a
 * minimum: not of unpacked fish, nor of a vacuum pack kept frozen.
 */
export function isRaised(question: Question, judged: JudgeCase): boolean {
  switch (question) {
    case 'thaw': return judged.facts?.wasFrozen !== false;
    case 'dry': return judged.process === 'cold' && judged.facts?.driedApart !== false;
    case 'cooling': return judged.process === 'hot';
    case 'salt': return judged.pack !== 'unpacked' && !(judged.pack === 'vacuum' && judged.store === 'frozen');
    default: return true;
  }
}

/** Whether a set that is silent on a question it is asked proves nothing. A hot batch answers parasite by its heat check. */
export function mustAnswer(question: Question, judged: JudgeCase): boolean {
  switch (question) {
    case 'chamber': case 'cooling': case 'salt': case 'store': case 'record': return true;
    case 'parasite': return judged.process === 'cold';
    default: return false;
  }
}
