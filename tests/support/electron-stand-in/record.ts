/** What the program asked of the stand-in, and what a test wants it to answer. */

export interface Call {
  /** Such as `dialog.showOpenDialog`. */
  readonly what: string;
  readonly values: readonly unknown[];
}

const calls: Call[] = [];
const openDialogAnswers: (readonly string[])[] = [];

/** Notes a call. */
export function noteCall(what: string, ...values: readonly unknown[]): void {
  calls.push({ what, values });
}

/** All calls of one kind, oldest first. */
export function callsOf(what: string): readonly Call[] {
  return calls.filter((call) => call.what === what);
}

/** Lets the next open dialog choose these files; none at all is leaving the dialog. */
export function answerNextOpenDialog(files: readonly string[]): void {
  openDialogAnswers.push(files);
}

/** The next queued choice. Throws when a test queued none: a dialog nobody expected is a fault. */
export function takeOpenDialogAnswer(): readonly string[] {
  const answer = openDialogAnswers.shift();
  if (answer === undefined) throw new Error('The program opened a file dialog that the test did not expect.');
  return answer;
}
