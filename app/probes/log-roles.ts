/** Which column holds what: by its cells first, by its heading where the cells leave it open. */
import { statedUnit, type ColumnFacts } from './log-facts.ts';
import { isMostly, type ColumnProfile } from './log-profile.ts';
import { findTimeColumns, type TimeColumns } from './log-time-columns.ts';
import type { LogRole } from './log-types.ts';

/** `Probe` beside `Temperature` numbers the probes; beside `Chamber` it is a probe itself. */
const GENERIC_READING = /temp|value|reading|measure|data|wert|degree|°/i;

interface LogRoles {
  readonly roles: readonly LogRole[];
  readonly time: TimeColumns | undefined;
}

/**
 * Gives each column its role.
 * @param chosen roles that a person gave, by column index; they win over everything
 */
export function assignRoles(facts: readonly ColumnFacts[], chosen: ReadonlyMap<number, LogRole>): LogRoles {
  const free = facts.filter((fact) => !chosen.has(fact.index));
  const time = findTimeColumns(facts, free, chosen);
  const roles = facts.map((fact): LogRole => chosen.get(fact.index) ?? time?.roles.get(fact.index) ?? roleApartFromTime(fact));
  const channel = roles.includes('channel') ? undefined : findChannel(facts, roles, time, chosen);
  if (channel !== undefined) roles[channel] = 'channel';
  return { roles, time };
}

function roleApartFromTime(fact: ColumnFacts): LogRole {
  const { profile, hint } = fact;
  if (isMostly(profile, 'moment', 'date', 'clock')) return 'ignore';
  if (isMostly(profile, 'unit')) return 'unit';
  const unit = statedUnit(fact);
  if (isMostly(profile, 'number')) {
    if (unit === 'F' || unit === 'C') return hint === 'aside' ? 'ignore' : 'reading';
    if (unit === 'other' || hint === 'aside' || hint === 'counter' || hint === 'elapsed' || hint === 'time') return 'ignore';
    return isCounting(fact) ? 'ignore' : 'reading';
  }
  if (profile.filled === 0) {
    if (unit === 'F' || unit === 'C') return 'reading';
    return profile.shapes.missing > 0 && unit === undefined && hint === 'none' ? 'reading' : 'ignore';
  }
  if (hint === 'note') return 'note';
  return (unit === 'F' || unit === 'C') && profile.shapes.number > 0 ? 'reading' : 'ignore';
}

/** A column without a heading whose whole numbers go up by one from row to row is a row counter. */
function isCounting(fact: ColumnFacts): boolean {
  const head = fact.profile.numbers.slice(0, 200);
  if (fact.heading !== '' || head.length < 20) return false;
  return head.every((value, index) => Number.isInteger(value) && (index === 0 || value === (head[index - 1] ?? 0) + 1));
}

/**
 * The channel column of a long file: one reading a row, and a column that says whose. Its heading
 * says so, or the same times come again under different names.
 */
function findChannel(facts: readonly ColumnFacts[], roles: readonly LogRole[], time: TimeColumns | undefined, chosen: ReadonlyMap<number, LogRole>): number | undefined {
  const repeats = time !== undefined && timesRepeat(facts, time);
  const candidates = facts.filter((fact) => {
    const role = roles[fact.index];
    return !chosen.has(fact.index) && (role === 'ignore' || role === 'note' || role === 'reading') && fact.profile.filled > 0;
  });
  function readingsBeside(index: number): readonly ColumnFacts[] {
    return facts.filter((fact) => roles[fact.index] === 'reading' && fact.index !== index);
  }
  for (const hint of ['channel', 'likely-channel', 'none', 'counter', 'note'] as const) {
    for (const fact of candidates) {
      const [reading, ...more] = readingsBeside(fact.index);
      if (fact.hint !== hint || reading === undefined || more.length > 0) continue;
      const few = fact.profile.distinct.size <= 64;
      const several = few && fact.profile.distinct.size >= 2;
      if (isMostly(fact.profile, 'text')) {
        if (hint === 'channel' || (several && repeats)) return fact.index;
      } else if (isMostly(fact.profile, 'number') && hint.endsWith('channel') && isSmallWhole(fact.profile) && GENERIC_READING.test(reading.heading)) {
        if (fact.profile.distinct.size === 1 || (several && repeats)) return fact.index;
      }
    }
  }
  return undefined;
}

function isSmallWhole(profile: ColumnProfile): boolean {
  return profile.numbers.every((value) => Number.isInteger(value) && value >= 0 && value <= 1000);
}

function timesRepeat(facts: readonly ColumnFacts[], time: TimeColumns): boolean {
  const columns = [...time.roles.keys()].filter((index) => time.roles.get(index) !== 'ignore').map((index) => facts[index]?.profile.first ?? []);
  const rows = Math.min(...columns.map((column) => column.length));
  if (!Number.isFinite(rows) || rows < 2) return false;
  const seen = new Set<string>();
  for (let row = 0; row < rows; row += 1) seen.add(columns.map((column) => column[row] ?? '').join('\n'));
  return seen.size * 3 <= rows * 2;
}
