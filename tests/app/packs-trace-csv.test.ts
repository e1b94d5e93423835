import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellText, figureText, tableText } from '../../app/packs/trace-csv.ts';
import { EVENT_COLUMNS, eventTable, gapsOf, sortEvents, type TraceEvent } from '../../app/packs/trace-events.ts';

/** A reader of RFC 4180 of the test's own: fields of every line, quotes taken off. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let field = '';
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at] ?? '';
    if (quoted) {
      if (character !== '"') field += character;
      else if (text[at + 1] === '"') { field += '"'; at += 1; } else quoted = false;
      continue;
    }
    if (character === '"') quoted = true;
    else if (character === ',') { rows.at(-1)?.push(field); field = ''; } else if (character === '\r' && text[at + 1] === '\n') { rows.at(-1)?.push(field); field = ''; rows.push([]); at += 1; } else field += character;
  }
  rows.pop();
  return rows;
}

describe('a cell of a table', () => {
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '＝1', '=cmd|\' /C calc\'!A0'])('that begins like a formula is text: %j', (cell) => {
    expect(cellText(cell)).toBe(`"'${cell}"`);
  });

  it('is quoted where it has a comma, a quote, a line break or blanks at its ends, and else is left alone', () => {
    expect(cellText('Sven, Sons')).toBe('"Sven, Sons"');
    expect(cellText('10" knife')).toBe('"10"" knife"');
    expect(cellText('two\r\nlines')).toBe('"two\r\nlines"');
    expect(cellText(' x')).toBe('" x"');
    expect(cellText('Lake trout')).toBe('Lake trout');
  });

  it('that is a number stays one, below zero too, with its zeros', () => {
    expect(cellText(-5)).toBe('-5');
    expect(figureText('-0.50')).toBe('-0.50');
    expect(figureText('-1+1')).toBe('"\'-1+1"');
  });

  it('comes back as it was from a reader of RFC 4180, but for the apostrophe before what is no formula', () => {
    fc.assert(fc.property(fc.array(fc.array(fc.string({ unit: 'binary' }), { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 5 }), (rows) => {
      const back = readCsv(tableText(rows));
      expect(back).toEqual(rows.map((row) => row.map((cell) => (/^[=+\-@\t\r\n＝＋－＠]/u.test(cell) ? `'${cell}` : cell))));
      for (const cell of back.flat()) expect(cell).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/u);
    }));
  });
});

describe('the rows of traceability', () => {
  const ship: TraceEvent = { event: 'SHIP', event_date: '2026-07-15', tlc: 'B', qty: 2, to_name: 'Inn' };
  const make: TraceEvent = { event: 'TRANSFORM', event_date: '2026-07-14', tlc: 'B', input_tlc: 'L2' };

  it('have the fixed heading and one cell a column', () => {
    const [head, row] = eventTable([ship]);
    expect(head).toEqual([...EVENT_COLUMNS]);
    expect(row).toHaveLength(27);
    expect(row?.[EVENT_COLUMNS.indexOf('to_name')]).toBe('Inn');
  });

  it('are sorted by lot, then day, then what went in', () => {
    const other: TraceEvent = { ...make, input_tlc: 'L1' };
    expect(sortEvents([ship, make, other, { ...ship, tlc: 'A' }]).map(({ tlc, event, input_tlc }) => `${tlc} ${event} ${input_tlc ?? ''}`)).toEqual(['A SHIP ', 'B TRANSFORM L1', 'B TRANSFORM L2', 'B SHIP ']);
  });

  it('say what the rule asks for and they lack, counted', () => {
    expect(gapsOf([ship, { ...ship, to_address: '1 Dock Road', from_address: '2 Dock Road' }])).toEqual([{ what: 'the address it went to', rows: 1 }, { what: 'the kitchen’s address', rows: 1 }]);
  });
});
