/** Papers that must be there: permissions, exemptions by a supplier's statement, and checks of the thermometers. What is missing or expired proves nothing. */
import { ticksFromDecimal } from '../measures/temperature.ts';
import { isSpecies } from './conditions.ts';
import { compareDecimals, decimalFrom, isDecimal } from './decimals.ts';
import { plainFinding, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase } from './judge-case.ts';
import type { CalibrationCheck, Figure, PermissionCheck } from './limit-set.ts';
import { batchSpan, FILED_WORDS, standingOf, startOf, type FiledRecord } from './on-file.ts';
import { limitTicks } from './readings.ts';
import { figureText, listText } from './words.ts';

/**
 * A permission valid from the soak or the chamber to the sealing. One that only relaxes another limit
 * takes no part in a group until it is shown: a batch that was never frozen is not saved by the
 * thought that it might have been exempt.
 */
export function judgePermission(check: PermissionCheck, judged: JudgeCase, context: JudgeContext): Finding {
  const found = permissionOf(check, judged, context);
  return check.relaxes === true && found.verdict !== 'meets' ? { ...found, takesNoPart: true } : found;
}

function permissionOf(check: PermissionCheck, judged: JudgeCase, { words }: JudgeContext): Finding {
  const { proof } = check;
  // The conditions of the check name the species; that they hold is all it asks.
  if (proof === 'species') return judged.species === undefined ? plainFinding('not-proven', 'The species is not recorded.', 'The species.') : plainFinding('meets', `${judged.species.trim()} is exempt.`);
  const needed = `On file: the ${FILED_WORDS[proof]}${check.relaxes === true ? '' : ', valid when the batch is made'}.`;
  const onFile = judged.facts?.onFile ?? [];
  if (proof === 'manager-initials') return initialsOf(onFile, judged, needed, words.day);
  const span = batchSpan(judged);
  if (span === undefined) return plainFinding('not-proven', 'When the batch was made is not recorded, so nothing tells what was valid then.', needed);
  const fitting = proof === 'fed-pellets' || proof === 'frozen-by-supplier' ? onFile.filter((record) => record.what === proof && lackOf(check, record, judged) === undefined) : onFile;
  const standing = standingOf(fitting, proof, span, words);
  if (standing.isValid) return plainFinding('meets', standing.text);
  const [other] = onFile.filter((record) => record.what === proof);
  const lack = standing.record === undefined && other !== undefined ? lackOf(check, other, judged) : undefined;
  return plainFinding('not-proven', lack ?? standing.text, needed);
}

/** What keeps a supplier's statement from being one on this fish; undefined where nothing does. */
function lackOf(check: PermissionCheck, record: FiledRecord, { species }: JudgeCase): string | undefined {
  if (species === undefined || species.trim() === '') return 'The species is not recorded, so the supplier’s statement can’t be matched to it.';
  if (!isSpecies(species, record.species ?? [])) return `The supplier’s statement ${record.number} does not name ${species.trim()}.`;
  if (check.stated === undefined) return undefined;
  const { frozen } = record;
  if (frozen === undefined || !isDecimal(frozen.value) || !isDecimal(frozen.hours)) return `The supplier’s statement ${record.number} names no temperature and time of freezing.`;
  const isEnough = check.stated.some(({ limit, hours }) => compareDecimals(decimalFrom(frozen.hours), decimalFrom(String(hours))) >= 0 && isAtOrBelow(frozen, limit));
  const asked = check.stated.map(({ limit, hours }) => `${figureText(limit)} or below for ${hours} h`).join(' or ');
  return isEnough ? undefined : `The supplier’s statement ${record.number} says ${figureText(frozen)} for ${frozen.hours} h; ${asked} asked.`;
}

function isAtOrBelow(stated: Figure, limit: Figure): boolean {
  const read = ticksFromDecimal(stated.value, stated.unit);
  return read.ok && read.value.highTicks <= limitTicks(limit);
}

function initialsOf(onFile: readonly FiledRecord[], judged: JudgeCase, needed: string, day: (ms: number) => string): Finding {
  const [first] = onFile.filter((record) => record.what === 'manager-initials').toSorted((left, right) => startOf(left) - startOf(right));
  if (first === undefined) return plainFinding('not-proven', 'The record does not carry a manager’s initials.', needed);
  const leftMs = judged.records.store.outMs;
  return leftMs !== undefined && startOf(first) > leftMs
    ? plainFinding('misses', `Initialled by ${first.holder} on ${day(startOf(first))}, after the batch had left.`, 'Initials before the batch leaves.')
    : plainFinding('meets', `Initialled by ${first.holder} on ${day(startOf(first))}.`);
}

/** Every thermometer used was checked in time: within so many months of its last use, or on the day of the load before it went in. */
export function judgeCalibration(check: CalibrationCheck, judged: JudgeCase, { words }: JudgeContext): Finding {
  const used = judged.facts?.probesUsed;
  const isDay = check.within === 'day';
  const needed = isDay ? 'Every thermometer checked in ice on the day, before the load goes in.' : `Every thermometer checked within ${check.within.months} months of its use.`;
  if (used === undefined || used.length === 0) return plainFinding('not-proven', 'Which thermometers were used is not recorded.', needed);
  const span = batchSpan(judged);
  if (span === undefined) return plainFinding('not-proven', 'When the thermometers were used is not recorded.', needed);
  const dayStartMs = judged.facts?.loadDayStartMs;
  if (isDay && dayStartMs === undefined) return plainFinding('not-proven', 'The day of the load is not recorded.', needed);
  const beforeMs = judged.records.process.inMs ?? span.fromMs;
  const probes = [...new Set(used)].toSorted().map((number) => {
    const checks = (judged.facts?.onFile ?? []).filter((record) => record.number === number && (record.what === 'probe-check' || (isDay && record.what === 'ice-check')));
    const dues = checks.filter((record) => startOf(record) <= beforeMs && (!isDay || startOf(record) >= (dayStartMs ?? 0))).map((record) => (isDay ? span.toMs : dueMs(record, check.within)));
    return { number, latestMs: checks.length === 0 ? undefined : Math.max(...checks.map(startOf)), dueMs: dues.length === 0 ? undefined : Math.max(...dues) };
  });
  const overdue = probes.filter((probe) => probe.dueMs === undefined || probe.dueMs < span.toMs);
  if (overdue.length > 0) {
    const said = overdue.map(({ number, latestMs, dueMs: due }) => (latestMs === undefined ? `${number}: no check on file` : isDay ? `${number}: not checked on the day before the load went in` : due === undefined ? `${number}: checked only on ${words.day(latestMs)}` : `${number}: its check was good until ${words.day(due)}`));
    return plainFinding('not-proven', `${said.join('; ')}.`, needed);
  }
  const numbers = listText(probes.map((probe) => probe.number));
  return plainFinding('meets', isDay ? `${numbers}: checked on the day, before the load went in.` : `${numbers}: checked, the next check due by ${words.day(Math.min(...probes.map((probe) => probe.dueMs ?? 0)))}.`);
}

/** When a check of a thermometer runs out: at its own end, or after the months that the text allows, the earlier. */
function dueMs(record: FiledRecord, within: CalibrationCheck['within']): number {
  const made = new Date(startOf(record));
  const months = within === 'day' ? 0 : within.months;
  const due = new Date(startOf(record));
  due.setUTCMonth(made.getUTCMonth() + months);
  // A month without that day ends on its last: 29 February and 12 months are 28 February.
  if (due.getUTCDate() !== made.getUTCDate()) due.setUTCDate(0);
  return Math.min(due.getTime(), record.validUntilMs ?? due.getTime());
}
