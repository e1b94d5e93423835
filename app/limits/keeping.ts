/** Records kept long enough, the shelf life on a label, packs opened here, and the film they are in. */
import { addDays, dayText, readDay, type CalendarDay } from '../packs/dates.ts';
import { compareDecimals, decimalFrom, isDecimal } from './decimals.ts';
import { plainFinding, worstBy, type Finding, type JudgeContext } from './finding.ts';
import type { JudgeCase } from './judge-case.ts';
import type { FilmCheck, LabelCheck, RetentionCheck } from './limit-set.ts';
import { dayWords } from './words.ts';

const HOUR_MS = 3_600_000;

/** Judged on two dates: from when the time counts, and until when the record is kept (or was destroyed). */
export function judgeRetention(check: RetentionCheck, judged: JudgeCase): Finding {
  const keeping = judged.facts?.keeping;
  const how = 'years' in check.length ? `${check.length.years} ${check.length.years === 1 ? 'year' : 'years'}` : `${check.length.days} days`;
  const after = check.from === 'made' ? 'it was made' : 'the last of it was served or sold';
  const from = dayOf(check.from === 'made' ? keeping?.madeOn : keeping?.servedOn);
  if (from === undefined) {
    // The time of a batch that is still here has not begun.
    const verdict = check.from === 'served' && judged.records.store.open ? 'open' : 'not-proven';
    return plainFinding(verdict, `When ${after} is not recorded, so its ${how} don’t count yet.`, `The record kept ${how} from the day ${after}.`);
  }
  const until = dayText('years' in check.length ? addYears(from, check.length.years) : addDays(from, check.length.days));
  const needed = `The record kept until ${dayWords(until)}.`;
  const kept = dayOf(keeping?.keptUntil);
  if (kept === undefined) return plainFinding('not-proven', `Until when the record is kept is not recorded; ${dayWords(until)} asked.`, needed);
  const said = `Kept until ${dayWords(dayText(kept))}; ${how} from ${dayWords(dayText(from))} are ${dayWords(until)}.`;
  return plainFinding(dayText(kept) < until ? 'misses' : 'meets', said, dayText(kept) < until ? needed : '');
}

/** The label's days of shelf life at most so many, or an opened pack used up in so many hours. */
export function judgeLabel(check: LabelCheck, judged: JudgeCase, { words }: JudgeContext): Finding {
  if (check.openedHours !== undefined) return judgeOpened(check.openedHours, judged, words.lasting);
  const days = judged.facts?.labelLifeDays;
  const needed = `A label with ${check.lifeDays ?? 0} days at most, the first day counted.`;
  if (days === undefined) return plainFinding('not-proven', 'The shelf life on the label is not recorded.', needed);
  const said = `The label gives ${days} ${days === 1 ? 'day' : 'days'}; ${check.lifeDays ?? 0} allowed.`;
  return days > (check.lifeDays ?? 0) ? plainFinding('misses', said, needed) : plainFinding('meets', said);
}

function judgeOpened(hours: number, judged: JudgeCase, lasting: (ms: number) => string): Finding {
  const opened = judged.facts?.openedPacks;
  const needed = `A pack that is opened used up within ${hours} h.`;
  if (opened === undefined) return plainFinding('not-proven', 'Whether packs were opened here is not recorded.', needed);
  if (opened.length === 0) return plainFinding('does-not-apply', 'No pack was opened here.');
  return worstBy(opened.map(({ openedMs, usedUpMs }) => {
    if (usedUpMs === undefined) return plainFinding(judged.records.store.open ? 'open' : 'not-proven', 'When an opened pack was used up is not recorded.', needed);
    const said = `Used up ${lasting(usedUpMs - openedMs)} after it was opened; ${hours} h allowed.`;
    return usedUpMs - openedMs > hours * HOUR_MS ? plainFinding('misses', said, needed) : plainFinding('meets', said);
  }), () => 0);
}

/** The figure of the film that the batch is packed in, as its maker's paper has it. */
export function judgeFilm(check: FilmCheck, judged: JudgeCase): Finding {
  const number = judged.facts?.filmUsed;
  const needed = `The maker’s figure for the film: ${check.oxygenRate} cc/m² of oxygen a day or more.`;
  if (number === undefined) return plainFinding('not-proven', 'Which film it is packed in is not recorded.', needed);
  const rates = (judged.facts?.onFile ?? []).flatMap((record) => (record.what === 'film' && record.number === number && record.oxygenRate !== undefined && isDecimal(record.oxygenRate) ? [record.oxygenRate] : []));
  // Two papers on one film: the lower figure counts.
  const [least] = rates.toSorted((left, right) => compareDecimals(decimalFrom(left), decimalFrom(right)));
  if (least === undefined) return plainFinding('not-proven', `No oxygen figure of film ${number} is on file.`, needed);
  const said = `Film ${number} lets ${least} cc/m² of oxygen through a day; ${check.oxygenRate} asked.`;
  return compareDecimals(decimalFrom(least), decimalFrom(check.oxygenRate)) < 0 ? plainFinding('misses', `${said} It counts as sealed from air.`, needed) : plainFinding('meets', said);
}

function dayOf(text: string | undefined): CalendarDay | undefined {
  const read = text === undefined ? undefined : readDay(text);
  return read?.ok === true ? read.value : undefined;
}

/** The same day years later; 29 February becomes 1 March, so that no day of the time is lost. */
function addYears(day: CalendarDay, years: number): CalendarDay {
  const year = day.year + years;
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return day.month === 2 && day.day === 29 && !isLeap ? { year, month: 3, day: 1 } : { ...day, year };
}
