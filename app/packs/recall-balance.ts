/**
 * Whether every pack of a recall is accounted for: packs made = found in store + with those who have them + eaten + served +
 * destroyed, as a share of the packs made. Matching what was received with what was produced: AIB International in Quality
 * Assurance & Food Safety, on mock recalls (read). That only the whole passes is our choice: each pack has a number of its own.
 */

export type FoundWhere = 'in-store' | 'with-them' | 'eaten' | 'served' | 'destroyed' | 'not-found';

export interface RecallPack {
  readonly grams: number;
  /** Null until somebody looked. */
  readonly where: FoundWhere | null;
}

export interface RecallBalance {
  readonly packs: number;
  /** Packs whose place is known. */
  readonly accounted: number;
  readonly notFound: number;
  /** Packs that nobody has looked for yet. */
  readonly open: number;
  /** Such as `97.9 %`; never rounded up to the whole. */
  readonly percent: string;
  /** Every pack is accounted for. */
  readonly isWhole: boolean;
  readonly grams: number;
  readonly accountedGrams: number;
  readonly byWhere: readonly { readonly where: FoundWhere; readonly packs: number; readonly grams: number }[];
}

const WHERES: readonly FoundWhere[] = ['in-store', 'with-them', 'eaten', 'served', 'destroyed', 'not-found'];

/** Adds the packs up. */
export function balanceRecall(packs: readonly RecallPack[]): RecallBalance {
  const accounted = packs.filter(({ where }) => where !== null && where !== 'not-found');
  const notFound = packs.filter(({ where }) => where === 'not-found').length;
  return {
    packs: packs.length, accounted: accounted.length, notFound, open: packs.length - accounted.length - notFound,
    percent: percentText(accounted.length, packs.length), isWhole: packs.length > 0 && accounted.length === packs.length,
    grams: gramsOf(packs), accountedGrams: gramsOf(accounted),
    byWhere: WHERES.flatMap((where) => {
      const there = packs.filter((pack) => pack.where === where);
      return there.length === 0 ? [] : [{ where, packs: there.length, grams: gramsOf(there) }];
    }),
  };
}

/** One decimal, cut and not rounded, so that 999 of 1000 is 99.9 and 4999 of 5000 isn’t 100. */
function percentText(part: number, whole: number): string {
  if (whole === 0) return '0 %';
  if (part === whole) return '100 %';
  return `${(Math.floor((1000 * part) / whole) / 10).toFixed(1)} %`;
}

function gramsOf(packs: readonly RecallPack[]): number {
  return packs.reduce((sum, { grams }) => sum + grams, 0);
}
