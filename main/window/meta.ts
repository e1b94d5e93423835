/** What goes with every request of the window and is never part of its input. */

/** What the preload sends beside name and input. */
export interface Meta {
  readonly commandId: string | null;
  readonly personId: string | null;
}

function isIdOrNull(value: unknown): value is string | null {
  return value === null || (typeof value === 'string' && value.length > 0 && value.length <= 100);
}

/** The meta of a message; null when it has another shape. */
export function readMeta(value: unknown): Meta | null {
  if (typeof value !== 'object' || value === null || Object.keys(value).length !== 2) return null;
  if (!('commandId' in value) || !('personId' in value)) return null;
  const { commandId, personId } = value;
  return isIdOrNull(commandId) && isIdOrNull(personId) ? { commandId, personId } : null;
}
