/** Where the back room's log goes: to standard error, one JSON object a line. */
import type { Log } from '../backroom/door.ts';

/** The log of the program: faults only, so that a terminal stays readable, or every line where that is wanted. */
export function terminalLog(showsEveryLine: boolean): Log {
  return (line) => {
    if (showsEveryLine || line.level === 'error') process.stderr.write(`${JSON.stringify(line)}\n`);
  };
}
