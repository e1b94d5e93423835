/** Long logs whose rows are read in one pass, and those that are left to other readers. */
import { describe, expect, it } from 'vitest';
import { readPlainRows, type ColumnLog } from '../../app/probes/log-columns.ts';
import type { LogOptions } from '../../app/probes/log-types.ts';
import { textAt } from '../../app/probes/reading-columns.ts';

const ROWS = 4000;
/** Of rows half as long as those of the head there are more than was made room for. */
const MANY_ROWS = 20_000;

interface Written {
  readonly heading?: string;
  readonly rows?: number;
  readonly startMs?: number;
  /** So many rows have one time. */
  readonly rowsOfTime?: number;
  readonly options?: LogOptions;
  cells(row: number): string;
}

function read({ heading = 'Time,P1 (F),P2 (F)', rows = ROWS, startMs = Date.UTC(2026, 6, 14, 5), rowsOfTime = 1, options = { timeZone: 'America/Chicago' }, cells }: Written): ColumnLog | undefined {
  const lines = Array.from({ length: rows }, (_, row) => `${new Date(startMs + Math.floor(row / rowsOfTime) * 10_000).toISOString().slice(0, 19).replace('T', ' ')},${cells(row)}`);
  return readPlainRows(new TextEncoder().encode(`${heading}\n${lines.join('\n')}\n`), options);
}

function textsOf(log: ColumnLog | undefined, place: number): string[] {
  const columns = log?.places[place]?.columns;
  return columns === undefined ? [] : Array.from(columns.lowTicks, (_, index) => textAt(columns, index));
}

describe('A long log of plain rows', () => {
  it('may have far more rows than its head lets expect', () => {
    const cells = (row: number): string => (row < 1400 ? `-1234.125,${100_000 + row}.250` : `${row % 7},1`);
    const log = read({ cells, rows: MANY_ROWS });
    expect(log?.counts).toMatchObject({ lines: MANY_ROWS + 1, read: MANY_ROWS, refused: 0 });
    for (const place of [0, 1]) expect(textsOf(log, place)).toEqual(Array.from({ length: MANY_ROWS }, (_, row) => cells(row).split(',')[place]));
    const channels = (row: number): string => (row < 1400 ? `A rather long name of a channel,${row % 500}.125` : `B,${row % 9}`);
    const long = read({ heading: 'Time,Channel,Temp (F)', cells: channels, rows: MANY_ROWS });
    expect(long?.places.map(({ name }) => name)).toEqual(['A rather long name of a channel', 'B']);
    expect(textsOf(long, 1)).toEqual(Array.from({ length: MANY_ROWS - 1400 }, (_, row) => String((row + 1400) % 9)));
  });

  it('may have columns that nobody reads, but no quote marks in them', () => {
    const heading = 'Time,P1 (F),Operator note';
    expect(read({ heading, cells: (row) => `${row % 50}.5,ok` })?.places).toHaveLength(1);
    expect(read({ heading, cells: (row) => `${row % 50}.5,${row === 3000 ? '"ok"' : 'ok'}` })).toBeUndefined();
    expect(read({ heading, cells: (row) => `${row % 50}.5,${row === 3000 ? 'gut für heute' : 'ok'}` })).toBeUndefined();
  });

  it('is left to the reader of single rows where one row is not plain, whatever it is', () => {
    for (const odd of ['', 'OL', '62.', '.5', '05.5', '00.5', '062.5', '4;.5', '41.;', '1?1.5', ':41.5', '/41.5', '41.5;', '-0.0', '1e2', '62.5 ', ' 62.5', '999.9', '-127', '1234567', '62.5000', '0.0001', '+4']) {
      const cells = (row: number): string => `${row === 3999 ? odd : '41.5'},40`;
      expect(read({ cells }), odd).toBeUndefined();
    }
    expect(read({ cells: (row) => (row === 2500 ? '41.5' : '41.5,40') })).toBeUndefined();
    expect(read({ cells: (row) => (row === 2500 ? '41.5,40,1' : '41.5,40') })).toBeUndefined();
    for (const between of [';', ' ', 'x', '\t']) for (const row of [2500, ROWS - 1]) expect(read({ cells: (each) => (each === row ? `41.5${between}40` : '41.5,40') }), between).toBeUndefined();
    expect(read({ cells: (row) => (row === 2500 ? '41.5,40\n' : '41.5,40') })).toBeUndefined();
  });

  it('is left to it where a time is none, and gives the texts’ reading where a cell is only another time', () => {
    const bytesOf = (time: string): Uint8Array => {
      const lines = Array.from({ length: ROWS }, (_, row) => `${row === 3000 ? time : new Date(Date.UTC(2026, 6, 14, 5) + row * 10_000).toISOString().slice(0, 19)},41.5`);
      return new TextEncoder().encode(`Time,P1 (F)\n${lines.join('\n')}\n`);
    };
    for (const none of ['2026-07-14T13:61:00', '2026-07-14T13:20:60', '2026-07-14T24:20:00', '2026-07-14T13:2:00', '2026-07-14T13:2?:00', '2026-07-14T1;:20:00', '2026-07-14T13:20-00', '2026-07-14T13-20:00', '2026-07-14T13:20:0:', '2026-07-14T13:20:00 x', '2026-13-14T13:20:00', '2026-07-14', '', '2026-07-14T13:20:00 ']) {
      expect(readPlainRows(bytesOf(none), { timeZone: 'America/Chicago' }), none).toBeUndefined();
    }
    // Bytes that are no text: what stands around a clock time is a text only where it is plain.
    for (const byte of [0xf4, 0xff, 0x80, 0x07]) {
      const bytes = bytesOf('2026-07-1#T13:20:00');
      bytes[bytes.indexOf(35)] = byte;
      expect(readPlainRows(bytes, { timeZone: 'America/Chicago' }), String(byte)).toBeUndefined();
    }
    for (const [time, atMs] of [[' 2026-07-14T13:20:00', Date.UTC(2026, 6, 14, 18, 20)], ['2026-07-14T13:20:07', Date.UTC(2026, 6, 14, 18, 20, 7)], ['2026-07-15T13:20:00', Date.UTC(2026, 6, 15, 18, 20)], ['2026-07-14T13:20', Date.UTC(2026, 6, 14, 18, 20)], ['2026-07-14T13:20:00.250', Date.UTC(2026, 6, 14, 18, 20, 0, 250)]] as const) {
      expect(readPlainRows(bytesOf(time), { timeZone: 'America/Chicago' })?.places[0]?.columns.atMs[3000], time).toBe(atMs);
    }
  });

  it('may have dates and clock times in two columns, and is left to it where either is none', () => {
    const bytesOf = (row3000: string): Uint8Array => {
      const lines = Array.from({ length: ROWS }, (_, row) => `${row === 3000 ? row3000 : new Date(Date.UTC(2026, 6, 14, 5) + row * 10_000).toISOString().slice(0, 19).replace('T', ',')},41.5`);
      return new TextEncoder().encode(`Date,Time,P1 (F)\n${lines.join('\n')}\n`);
    };
    const atOf = (row3000: string): number | undefined => readPlainRows(bytesOf(row3000), { timeZone: 'America/Chicago' })?.places[0]?.columns.atMs[3000];
    for (const none of ['2026-07-14x,13:20:00', '2026-07-14 ,13:20:00', '2026-07-14,13:20:00x', '2026-07-14,13:2?:00', '2026-07-14,24:20:00', '2026-07-14,', ',13:20:00']) expect(atOf(none), none).toBeUndefined();
    expect(atOf('2026-07-14,13:20:07')).toBe(Date.UTC(2026, 6, 14, 18, 20, 7));
    expect(atOf('2026-07-1,13:20:00')).toBe(Date.UTC(2026, 6, 1, 18, 20));
    expect(atOf('2026-07-15,1:20 PM')).toBe(Date.UTC(2026, 6, 15, 18, 20));
  });

  it('may end anywhere: cut within its last row it is that much shorter, or left to other readers', () => {
    const lines = Array.from({ length: ROWS }, (_, row) => `${new Date(Date.UTC(2026, 6, 14, 5) + Math.floor(row / 2) * 10_000).toISOString().slice(0, 19)},41.5`);
    const whole = new TextEncoder().encode(`Time,P1 (F)\n${lines.join('\n')}`);
    const counts = Array.from({ length: 30 }, (_, cut) => readPlainRows(whole.subarray(0, whole.length - cut), { timeZone: 'America/Chicago' })?.counts.read);
    // The whole row; “41.” and a bare delimiter are none; without a number of its own, “41” and “4” are another number.
    expect(counts.slice(0, 5)).toEqual([ROWS, undefined, ROWS, ROWS, undefined]);
    expect(counts.slice(5, 24).every((count) => count === undefined)).toBe(true);
    expect(counts[24]).toBe(ROWS - 1);
  });

  it('is left to it where the clocks went forward within, though each time has one meaning', () => {
    // 8 March 2026 in Chicago: at 02:00 it was 03:00. Nothing was written in the hours beside it.
    const wallMs = (row: number): number => Date.UTC(2026, 2, 8, 0) + row * 10_000 + (row >= 360 ? 3 * 3_600_000 : 0);
    const lines = Array.from({ length: ROWS }, (_, row) => `${new Date(wallMs(row)).toISOString().slice(0, 19)},41.5,40`);
    const bytes = new TextEncoder().encode(`Time,P1 (F),P2 (F)\n${lines.join('\n')}\n`);
    expect(readPlainRows(bytes, { timeZone: 'America/Chicago' })).toBeUndefined();
    expect(readPlainRows(bytes, { timeZone: 'America/Phoenix' })?.counts.read).toBe(ROWS);
  });

  it('is left to it where the clocks went back within', () => {
    const startMs = Date.UTC(2026, 10, 1, 0);
    expect(read({ startMs, cells: () => '41.5,40' })).toBeUndefined();
    expect(read({ startMs, cells: () => '41.5,40', options: { timeZone: 'America/Phoenix' } })?.counts.read).toBe(ROWS);
  });

  it('is left to it with more channels than a logger has, and with a name that has blanks at its end', () => {
    const heading = 'Time,Channel,Temp (F)';
    expect(read({ heading, cells: (row) => `P${row % 3},41.5` })?.places).toHaveLength(3);
    expect(read({ heading, cells: (row) => `P${row < 2000 ? row % 3 : row % 300},41.5` })).toBeUndefined();
    expect(read({ heading, cells: (row) => `P${row % 3}${row === 3000 ? ' ' : ''},41.5` })).toBeUndefined();
  });

  it('may have channels whose names begin alike, in any turn', () => {
    const names = ['P1', 'P12', 'P', 'P123', 'P12'];
    const nameAt = (row: number): string => names[(row * row + Math.floor(row / 7)) % 5] ?? '';
    const log = read({ heading: 'Time,Channel,Temp (F)', cells: (row) => `${nameAt(row)},${row % 97}.5` });
    for (const name of new Set(names)) {
      const rows = Array.from({ length: ROWS }, (_, row) => row).filter((row) => nameAt(row) === name);
      const index = log?.places.findIndex((place) => place.name === name) ?? -1;
      expect(textsOf(log, index)).toEqual(rows.map((row) => `${row % 97}.5`));
      expect([...(log?.places[index]?.lines ?? [])]).toEqual(rows.map((row) => row + 2));
      expect([...(log?.places[index]?.columns.atMs ?? [])].map((at) => (at - Date.UTC(2026, 6, 14, 10)) / 10_000)).toEqual(rows);
    }
  });

  it('is left to it where its later rows make another table of it', () => {
    // A few words beside times that come again are channels; a hundred different ones are not.
    const written = { heading: 'Time,Where,Temp (F)', rowsOfTime: 3 };
    expect(read({ ...written, cells: (row) => `P${row % 3},41.5` })?.places).toHaveLength(3);
    expect(read({ ...written, cells: (row) => `P${row < 2400 ? row % 3 : Math.floor(row / 15)},41.5` })).toBeUndefined();
  });
});
