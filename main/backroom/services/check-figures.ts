/** The figures of a check in one line, in the unit of its law. */
import type { Check, DescentCheck, Figure, LabelCheck } from '../../../app/limits/limit-set.ts';

/** One line for people; empty where the check has no figure. */
export function checkFigures(check: Check): string {
  switch (check.kind) {
    case 'hold': return `${degrees(check.limit)} or more, unbroken for ${duration(check.minutes)}`;
    case 'freeze': return `${degrees(check.limit)} or less, unbroken for ${duration(check.minutes)}${check.untilSolid === undefined ? '' : `, after ${degrees(check.untilSolid)} or less until it was frozen solid`}`;
    case 'ceiling': return `${check.below === true ? 'below' : 'at most'} ${degrees(check.limit)}${check.minutes === undefined ? '' : `, for at most ${duration(check.minutes)}`}`;
    case 'descent': return descentFigures(check);
    case 'probe-count': return `at least ${check.pieces} ${check.pieces === 1 ? 'piece' : 'pieces'} measured through the hold`;
    case 'brine-start': return `brine at most ${degrees(check.limit)} at the start`;
    case 'soak-room': return `at most ${degrees(check.limit)} in the room of a soak over ${duration(check.overMinutes)}`;
    case 'water-phase-salt': return `at least ${check.percent} % salt in the water phase${check.nitritePpm === undefined ? '' : `, with ${check.nitritePpm.least} to ${check.nitritePpm.most} ppm nitrite`}`;
    case 'total-salt': return `at least ${check.percent} % salt`;
    case 'nitrite-maximum': return `at most ${check.ppm} ppm nitrite`;
    case 'nitrite-none': return 'no nitrite';
    case 'presence': return `the brine of at most ${check.batches} ${check.batches === 1 ? 'batch' : 'batches'}${check.freshMinutes === undefined ? '' : `, at most ${duration(check.freshMinutes)} old unless filtered`}`;
    case 'review': return `the record read through within ${check.days} days`;
    case 'unmeasured': return check.what;
    case 'frozen-before-seal': return 'frozen solid before it is sealed';
    case 'pack-ban': return 'this pack is forbidden';
    case 'calibration': return check.within === 'day' ? 'checked on the day' : `checked within ${check.within.months} months`;
    case 'retention': return `kept for ${'years' in check.length ? plural(check.length.years, 'year') : plural(check.length.days, 'day')} from the day it was ${check.from}`;
    case 'label': return labelFigures(check);
    case 'film': return `at least ${check.oxygenRate} cc/m² of oxygen a day`;
    case 'no-figure': case 'permission': return '';
  }
}

function labelFigures({ lifeDays, openedHours }: LabelCheck): string {
  const life = lifeDays === undefined ? [] : [`at most ${plural(lifeDays, 'day')} on the label`];
  return [...life, ...(openedHours === undefined ? [] : [`used within ${openedHours} h of opening`])].join(', ');
}

function plural(count: number, one: string): string {
  return `${count} ${count === 1 ? one : `${one}s`}`;
}

function descentFigures(check: DescentCheck): string {
  const start = check.from === undefined ? 'from the end of smoking' : `from ${degrees(check.from)}`;
  const targets = check.targets.map(({ limit, minutes }) => `${degrees(limit)} or less within ${duration(minutes)}`);
  const clocks = check.targets.length < 2 ? '' : check.clock === 'shared' ? ', all from the start' : ', each from the one before';
  return `${start} to ${targets.join(', ')}${clocks}`;
}

function degrees({ value, unit }: Figure): string {
  return `${value.replace('-', '−')} °${unit}`;
}

/** Minutes up to two hours, then hours, from three days on days where they are whole. */
function duration(minutes: number): string {
  if (minutes < 120 || minutes % 60 !== 0) return `${minutes} min`;
  const hours = minutes / 60;
  return hours >= 72 && hours % 24 === 0 ? `${hours / 24} days` : `${hours} h`;
}
