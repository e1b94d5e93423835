/** What the back room says about its own work: one line a request. */

export interface LogLine {
  readonly level: 'info' | 'warn' | 'error';
  readonly what: string;
  /** Of a request: how long it took, and `ok` or the failure's code. */
  readonly ms?: number;
  readonly outcome?: string;
  /** The same as in the failure the person saw. */
  readonly reference?: string;
  /** Of a failure of ours: what was thrown. Never shown to a person. */
  readonly detail?: string;
}

export type Log = (line: LogLine) => void;

/** One JSON object a line on standard error. */
export function logToStandardError(line: LogLine): void {
  process.stderr.write(`${JSON.stringify(line)}\n`);
}
