/** Random logs of the dialects that are read from bytes, with rows here and there that aren't plain. */
import fc from 'fast-check';
import type { LogOptions } from '../../app/probes/log-types.ts';

interface RandomLog {
  readonly dialect: string;
  readonly text: string;
  readonly options: LogOptions;
  /** Nothing in it needs the general reader. */
  readonly isPlain: boolean;
}

interface Dialect {
  readonly name: string;
  readonly marks: readonly string[];
  /** Fields of a row without its numbers; a long file's come with the channel. */
  time(atMs: number, startMs: number): string[];
  readonly headings: readonly string[];
  readonly long?: 'plain' | 'units';
  readonly options: LogOptions;
}

const ZONE = { timeZone: 'America/Anchorage' };
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

const DIALECTS: readonly Dialect[] = [
  { name: 'iso', marks: [',', ';', '\t'], time: (atMs) => [wall(atMs)], headings: ['Time'], options: ZONE },
  { name: 'offset', marks: [',', '|'], time: (atMs) => [`${wall(atMs)}+02:00`], headings: ['Time'], options: {} },
  { name: 'date and clock', marks: [';', '\t'], time: (atMs) => [`${part(atMs, 8, 10)}.${part(atMs, 5, 7)}.${part(atMs, 0, 4)}`, part(atMs, 11, 19)], headings: ['Date', 'Time'], options: { ...ZONE, answers: { dateOrder: 'day-first' } } },
  { name: 'numeric date', marks: [',', ';'], time: (atMs) => [`${Number(part(atMs, 5, 7))}/${Number(part(atMs, 8, 10))}/${part(atMs, 0, 4)} ${part(atMs, 11, 19)}`], headings: ['Time'], options: { ...ZONE, answers: { dateOrder: 'month-first' } } },
  { name: 'twelve hours', marks: [',', '\t'], time: (atMs) => [`${part(atMs, 0, 10)} ${twelve(atMs)}`], headings: ['Time'], options: ZONE },
  { name: 'named month', marks: [';'], time: (atMs) => [`${part(atMs, 8, 10)} ${MONTHS[Number(part(atMs, 5, 7)) - 1]} ${part(atMs, 0, 4)} ${part(atMs, 11, 19)}`], headings: ['When'], options: ZONE },
  { name: 'clock first', marks: ['|'], time: (atMs) => [`${part(atMs, 11, 19)} ${part(atMs, 8, 10)}/${part(atMs, 5, 7)}/${part(atMs, 0, 4)}`], headings: ['Time'], options: { ...ZONE, answers: { dateOrder: 'day-first' } } },
  { name: 'epoch', marks: [',', ';'], time: (atMs) => [String(atMs)], headings: ['Timestamp'], options: {} },
  { name: 'elapsed', marks: [',', '\t'], time: (atMs, startMs) => [String((atMs - startMs) / 1000)], headings: ['Elapsed (s)'], options: { answers: { start: '2026-03-02 06:00Z' } } },
  { name: 'long', marks: [',', ';'], time: (atMs) => [`${wall(atMs)}Z`], headings: ['Time', 'Channel', 'Value (F)'], long: 'plain', options: {} },
  { name: 'long with units', marks: [',', '\t'], time: (atMs) => [`${wall(atMs)}Z`], headings: ['Time', 'Probe', 'Temperature', 'Unit'], long: 'units', options: {} },
];

/** Dialects in which no clock change and no question can be. */
const WITHOUT_ZONE = ['epoch', 'offset', 'elapsed', 'long', 'long with units'];

/** What spoils a row, or only looks unusual. */
const ODD_CELLS = ['', '---', 'OL', '-999', '9999', '62', '+61.5', '062.5', '-0.0', '-0', '.5', '62.', '1e2', '62.8125', '62.80001', '62.8 °F', 'hot', '4,5', '2000000', '-127', '127.5', '999.9', '  63.1 '];

/** Of a few dozen rows. */
export const randomLog = randomLogOf(1);
/** So long that its rows are read in one pass. */
export const randomLongLog = randomLogOf(100);

/** @param times how often its rows come again, at later times */
function randomLogOf(times: number): fc.Arbitrary<RandomLog> {
  // Most long logs have no odd row at all, as most loggers’ have none.
  const few = <T>(some: fc.Arbitrary<T[]>): fc.Arbitrary<T[]> => (times === 1 ? some : fc.oneof({ arbitrary: fc.constant<T[]>([]), weight: 4 }, { arbitrary: some, weight: 1 }));
  return fc.record({
    dialect: fc.constantFrom(...DIALECTS),
    mark: fc.nat(),
    comma: fc.boolean(),
    startMinute: fc.integer({ min: 0, max: 500_000 }),
    stepSeconds: fc.constantFrom(1, 10, 60, 3600),
    rows: fc.array(fc.array(fc.integer({ min: -4000, max: 9000 }), { minLength: 3, maxLength: 3 }), times === 1 ? { minLength: 3, maxLength: 40 } : { minLength: 24, maxLength: 30 }),
    decimals: fc.constantFrom(0, 1, 2, 3),
    ending: fc.constantFrom('\n', '\r\n'),
    lastEnding: fc.boolean(),
    opening: fc.constantFrom('', 'Logger;SN 0042\n', '\uFEFF', 'Gerät Nr 7\n\n'),
    odd: few(fc.array(fc.record({ row: fc.nat(), cell: fc.nat(2), text: fc.constantFrom(...ODD_CELLS) }), { maxLength: 4 })),
    spoilt: few(fc.array(fc.record({ row: fc.nat(), line: fc.constantFrom('', ',,,', '2026-13-45 99:00,1,2,3', 'power fail', '"2026-03-02 06:00:00","62.8', 'Time', 'x\ty') }), { maxLength: 2 })),
  }).map(({ rows: pattern, ...drawn }) => writeLog({ ...drawn, rows: Array.from({ length: times }, () => pattern).flat() }));
}

interface Drawn {
  readonly dialect: Dialect;
  readonly mark: number;
  readonly comma: boolean;
  readonly startMinute: number;
  readonly stepSeconds: number;
  readonly rows: readonly (readonly number[])[];
  readonly decimals: number;
  readonly ending: string;
  readonly lastEnding: boolean;
  readonly opening: string;
  readonly odd: readonly { readonly row: number; readonly cell: number; readonly text: string }[];
  readonly spoilt: readonly { readonly row: number; readonly line: string }[];
}

function writeLog({ dialect, mark, comma, startMinute, stepSeconds, rows, decimals, ending, lastEnding, opening, odd, spoilt }: Drawn): RandomLog {
  const between = dialect.marks[mark % dialect.marks.length] ?? ',';
  const point = comma && between !== ',' ? ',' : '.';
  const startMs = Date.UTC(2026, 0, 5) + startMinute * 60_000;
  const lines = rows.flatMap((values, index) => {
    const time = dialect.time(startMs + index * stepSeconds * 1000, startMs);
    const cells = values.map((value, cell) => odd.find((one) => one.row % rows.length === index && one.cell === cell)?.text ?? (value / 10 ** decimals).toFixed(decimals).replace('.', point));
    if (dialect.long === undefined) return [[...time, ...cells].join(between)];
    return cells.map((cell, channel) => [...time, `P${channel + 1}`, cell, ...(dialect.long === 'units' ? ['F'] : [])].join(between));
  });
  for (const { row, line } of spoilt) lines.splice(1 + (row % lines.length), 0, line);
  const headings = dialect.long === undefined ? [...dialect.headings, 'P1 (F)', 'P2 (F)', 'Chamber (F)'] : dialect.headings;
  const text = `${opening}${[headings.join(between), ...lines].join(ending)}${lastEnding ? ending : ''}`;
  return { dialect: dialect.name, text, options: dialect.options, isPlain: odd.length === 0 && spoilt.length === 0 && WITHOUT_ZONE.includes(dialect.name) };
}

function wall(atMs: number): string {
  return new Date(atMs).toISOString().slice(0, 19);
}

function part(atMs: number, from: number, to: number): string {
  return new Date(atMs).toISOString().slice(from, to);
}

function twelve(atMs: number): string {
  const hour = Number(part(atMs, 11, 13));
  return `${hour % 12 === 0 ? 12 : hour % 12}:${part(atMs, 14, 19)} ${hour < 12 ? 'AM' : 'PM'}`;
}
