/** Names of recipes, ingredients and tastings: when two are the same, and a free one beside a name that is taken. */

/** The longest name that the contract lets through. */
const LONGEST_NAME = 200;

/** Names are told apart without regard to capitals and spaces. */
export function sameName(one: string, other: string): boolean {
  return plainName(one) === plainName(other);
}

/** A name in quotation marks, for a sentence. */
export function nameIn(name: string): string {
  return `“${name}”`;
}

/**
 * The name itself where it is free, else the first free one with a remark in brackets: `House brine (imported)`, then `House brine (imported 2)`.
 * @param taken names in use
 * @param remark empty for a number alone: `Tasting of 25 Nov (2)`
 */
export function freeName(name: string, taken: readonly string[], remark = ''): string {
  let free = name;
  for (let count = 1; taken.some((other) => sameName(other, free)); count += 1) {
    const mark = ` (${[remark, ...(count === 1 && remark !== '' ? [] : [String(remark === '' ? count + 1 : count)])].filter((part) => part !== '').join(' ')})`;
    free = name.slice(0, LONGEST_NAME - mark.length) + mark;
  }
  return free;
}

function plainName(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}
