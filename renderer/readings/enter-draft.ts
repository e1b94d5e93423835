/** One round of readings as it is typed with the keypad, piece after piece. Pure. */

export type Typed = Readonly<Record<string, string>>;
export const KEYS = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '-', '0', '.'] as const;
export type Key = (typeof KEYS)[number] | 'back';

const LONGEST = 8;

/** What a key makes of a figure: one minus, at its beginning or taken away again; one point. */
export function press(value: string, key: Key): string {
  if (key === 'back') return value.slice(0, -1);
  if (key === '-') return value.startsWith('-') ? value.slice(1) : `-${value}`;
  if (value.length >= LONGEST || (key === '.' && value.includes('.'))) return value;
  return value + key;
}

/** The piece after this one that has no figure yet, going round; null where each has one. */
export function nextEmpty(pointIds: readonly string[], typed: Typed, activeId: string): string | null {
  const at = pointIds.indexOf(activeId);
  const order = [...pointIds.slice(at + 1), ...pointIds.slice(0, at + 1)];
  return order.find((id) => (typed[id] ?? '').trim() === '') ?? null;
}
