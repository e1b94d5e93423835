/** Which point a column of a logger's file most likely belongs to, by its heading alone. A person confirms it. */

/** What a column may belong to. */
export interface NamedPoint {
  readonly id: string;
  readonly name: string;
  readonly role: string;
  readonly instrumentName: string;
}

const CHAMBER_WORDS = ['chamber', 'air', 'pit', 'smoker', 'smokehouse', 'ambient', 'oven', 'kiln', 'cabinet'];

/**
 * The likely point of each column, in the order given: by the instrument's or piece's own name, by a
 * word for the smoker's air, by the number of the instrument (“T2”, “Core 2”, “Probe 2”), by the
 * number in the piece's name. A point is proposed once.
 * @returns one id or null a column
 */
export function likelyPoints(headings: readonly string[], points: readonly NamedPoint[]): (string | null)[] {
  const found = new Map<number, string>();
  for (const fits of RULES) {
    for (const [column, heading] of headings.entries()) {
      if (found.has(column)) continue;
      const free = points.filter((point) => ![...found.values()].includes(point.id) && fits(heading, point));
      const [only, second] = free;
      if (only !== undefined && second === undefined) found.set(column, only.id);
    }
  }
  return headings.map((_heading, column) => found.get(column) ?? null);
}

/** The one place that a file's name or its only column names, or the only place there is; null when that can't be told. */
export function likelyPlace(fileName: string, heading: string, places: readonly NamedPoint[]): string | null {
  const [only, second] = places;
  if (only !== undefined && second === undefined) return only.id;
  const words = ` ${wordsOf(fileName).join(' ')} ${wordsOf(heading).join(' ')} `;
  const named = places.filter((place) => wordsOf(place.name).length > 0 && words.includes(` ${wordsOf(place.name).join(' ')} `));
  const [one, other] = named;
  return one !== undefined && other === undefined ? one.id : null;
}

/** A column as it was taken over before. */
export interface RememberedColumn {
  readonly name: string;
  readonly role: string;
  readonly pointName: string;
  readonly instrumentName: string;
}

/**
 * As `likelyPoints`, but first by where a column of the same name went before: to the point with that thermometer,
 * else to the chamber, else to the point of that name.
 */
export function rememberedPoints(headings: readonly string[], points: readonly NamedPoint[], before: readonly RememberedColumn[]): (string | null)[] {
  const taken = new Set<string>();
  const known = headings.map((heading) => {
    const column = before.find(({ name }) => name === heading);
    const fits = column === undefined ? [] : FITS_BEFORE.map((fit) => points.filter((point) => !taken.has(point.id) && fit(column, point)));
    const [only] = fits.find((some) => some.length === 1) ?? [];
    if (only !== undefined) taken.add(only.id);
    return only?.id ?? null;
  });
  const likely = likelyPoints(headings, points);
  return known.map((id, index) => {
    const other = likely[index] ?? null;
    return id ?? (other !== null && taken.has(other) ? null : other);
  });
}

const FITS_BEFORE: readonly ((column: RememberedColumn, point: NamedPoint) => boolean)[] = [
  (column, point) => column.instrumentName !== '' && point.instrumentName === column.instrumentName,
  (column, point) => column.role === 'chamber' && point.role === 'chamber',
  (column, point) => point.name === column.pointName,
];

type Rule = (heading: string, point: NamedPoint) => boolean;

const RULES: readonly Rule[] = [
  (heading, point) => startsWithName(heading, point.instrumentName) || startsWithName(heading, point.name),
  (heading, point) => point.role === 'chamber' && wordsOf(heading).some((word) => CHAMBER_WORDS.includes(word)),
  (heading, point) => point.role === 'piece' && sameNumber(heading, point.instrumentName),
  (heading, point) => point.role === 'piece' && sameNumber(heading, point.name),
];

/** `Probe 2 (°F)` begins with the name `Probe 2`; `Probe 21` does not. */
function startsWithName(heading: string, name: string): boolean {
  const nameWords = wordsOf(name);
  const headingWords = wordsOf(heading);
  return nameWords.length > 0 && nameWords.every((word, index) => headingWords[index] === word);
}

function sameNumber(heading: string, name: string): boolean {
  const number = firstNumber(heading);
  return number !== undefined && number === firstNumber(name);
}

function firstNumber(text: string): number | undefined {
  const word = wordsOf(text).find((candidate) => /^\d+$/.test(candidate));
  return word === undefined ? undefined : Number(word);
}

/** Words and whole numbers in small letters: `T2-core` is `t`, `2`, `core`. */
function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/\p{L}+|\d+/gu) ?? [];
}
