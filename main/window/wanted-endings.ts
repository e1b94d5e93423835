/** Which kinds of file a page wants to be shown first. */

/**
 * The endings in the input of `front.chooseFile`, written as a file input has them (`.csv,.txt`); empty
 * where none is named; null when the input is something else.
 */
export function readWantedEndings(input: unknown): string[] | null {
  if (typeof input !== 'object' || input === null) return null;
  const keys = Object.keys(input);
  if (keys.length === 0) return [];
  if (keys.length !== 1 || !('accept' in input) || typeof input.accept !== 'string') return null;
  const endings = input.accept.split(',').map((part) => part.trim()).filter((part) => part !== '');
  // Media types (`text/csv`) mean nothing to the dialog and are left out.
  return endings.filter((part) => /^\.\w{1,10}$/.test(part)).map((part) => part.slice(1));
}
