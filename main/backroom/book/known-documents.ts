/** Documents as they were read before: the same text is the same document. Nobody may change one that was handed out. */

/** Texts of so many characters a shelf: some thousand batches (our choice). */
const MOST_CHARACTERS = 32_000_000;

export interface KnownDocuments {
  /** The document of a text: parsed where this id had another text before, or none. */
  of(id: string, body: string, parse: (body: string) => unknown): unknown;
}

/** @param mostCharacters of texts kept at once; those read first go first */
export function knowDocuments(mostCharacters = MOST_CHARACTERS): KnownDocuments {
  const kept = new Map<string, { readonly body: string; readonly document: unknown }>();
  let characters = 0;
  return {
    of(id, body, parse) {
      const before = kept.get(id);
      if (before?.body === body) return before.document;
      const document = frozen(parse(body));
      kept.delete(id);
      kept.set(id, { body, document });
      characters += body.length - (before?.body.length ?? 0);
      for (const [oldest, unused] of kept) {
        if (characters <= mostCharacters || oldest === id) break;
        kept.delete(oldest);
        characters -= unused.body.length;
      }
      return document;
    },
  };
}

/** Frozen through and through. */
function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  for (const member of Object.values(value)) frozen(member);
  return Object.freeze(value);
}
