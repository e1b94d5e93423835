/** What an entry vouches for: a digest over the readings kept since the entry before. */
import { createHash } from 'node:crypto';
import { canonicalJson } from './canonical.ts';
import type { ReadingsToKeep } from '../room.ts';

/** One row as it lies in the file; `cut` is 1 when the number as written lies between two ticks. */
export interface ReadingRow {
  readonly point_id: string;
  readonly at_ms: number;
  readonly low_ticks: number;
  readonly cut: number;
  readonly text: string;
  readonly unit: 'F' | 'C';
  readonly instrument_id: string | null;
  readonly how: ReadingsToKeep['how'];
  readonly source: string;
  readonly entry_sequence: number;
}

/** A digest that is fed in the order of keeping. */
export interface ReadingsDigest {
  addRow(row: ReadingRow): void;
  /** A block's digest line, and how many readings it holds. */
  addBlock(line: string, count: number): void;
  readonly count: number;
  hex(): string;
}

/**
 * Starts a digest over readings; of none it is the SHA-256 of nothing. Rows alone give the SHA-256 of their
 * lines; where there are blocks it is that of the rows' digest and the blocks' lines.
 */
export function startReadingsDigest(): ReadingsDigest {
  const rows = createHash('sha256');
  const blocks: string[] = [];
  let count = 0;
  return {
    addRow(row) {
      rows.update(canonicalJson([row.point_id, row.at_ms, row.low_ticks, row.cut, row.text, row.unit, row.instrument_id, row.how, row.source]));
      rows.update('\n');
      count += 1;
    },
    addBlock(line, readings) {
      blocks.push(line);
      count += readings;
    },
    get count() {
      return count;
    },
    hex() {
      const ofRows = rows.copy().digest('hex');
      return blocks.length === 0 ? ofRows : createHash('sha256').update([ofRows, ...blocks].join('\n')).digest('hex');
    },
  };
}
