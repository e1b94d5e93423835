/** Which limit set is proposed to decide for a kind of kitchen in a region. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { findCheck, findSet, type LimitBook, type LimitSet, type Question } from '../../../app/limits/limit-set.ts';
import type { Room } from '../room.ts';
import { confirmationsOf, FALLBACK_SET_ID, mayDecide, unconfirmedChecks } from './limit-standing.ts';
import { usState } from './us-states.ts';

type Kind = Parsed<'book.propose'>['kind'];

/** Sets by state for kitchens that sell; a plant's rules aren't those of a restaurant. */
const SELLER_SETS: Readonly<Record<string, string>> = { AK: 'ak', ME: 'me', MI: 'mi-plant', NY: 'ny-plant', OR: 'or-retail', WI: 'wi' };
const KIND_WORDS: Readonly<Record<Kind, string>> = {
  'food-service': 'a kitchen that serves guests', seller: 'a kitchen that sells its fish', 'custom-processor': 'a kitchen that smokes guests’ own fish', home: 'a home kitchen',
};
/** Without a figure for these no hot-smoked batch could ever be released. */
const NEEDED: readonly Question[] = ['chamber', 'cooling'];

/**
 * Proposes the set of the kitchen's own law where it may decide and answers what every batch asks,
 * else the lodge default, and says why. The person may choose any other.
 */
export function proposeSet(room: Room, { kind, region }: Parsed<'book.propose'>): Output<'book.propose'> {
  const { limits } = room.catalogue;
  const confirmed = confirmationsOf(room.keeper.current());
  const wanted = findSet(limits, ownSetId(kind, region));
  const fallback = needSet(limits, FALLBACK_SET_ID);
  const obstacle = wanted === undefined || wanted.id === fallback.id ? undefined : obstacleOf(limits, wanted, confirmed);
  const set = wanted === undefined || obstacle !== undefined ? fallback : wanted;
  return {
    setId: set.id, setName: set.name, why: whyOf(kind, region, set, obstacle),
    choices: limits.sets.map((choice) => ({ setId: choice.id, name: choice.name, mayDecide: mayDecide(limits, choice, confirmed) })),
  };
}

function ownSetId(kind: Kind, region: string): string {
  const state = usState(region);
  if (kind === 'home') return 'home';
  if (kind === 'food-service' && state === 'NY') return 'ny-food-service';
  if (state === 'AK') return 'ak';
  if (kind === 'food-service' && state !== undefined) return 'us-food-code';
  if (kind === 'seller' && state !== undefined) return SELLER_SETS[state] ?? 'us-fda-sale';
  if (kind === 'seller' && ['on', 'ontario'].includes(region.trim().toLowerCase())) return 'ca-on';
  return FALLBACK_SET_ID;
}

/** Why the kitchen's own set is not proposed; undefined where nothing stands against it. */
function obstacleOf(limits: LimitBook, set: LimitSet, confirmed: ReadonlyMap<string, unknown>): string | undefined {
  if (!mayDecide(limits, set, confirmed)) {
    return `“${set.name}” would be the nearest, but its texts were not all seen: it may decide once a manager has confirmed ${unconfirmedChecks(limits, set, confirmed).join(', ')} against the kitchen’s own paper. Until then it is shown beside.`;
  }
  const silent = NEEDED.filter((question) => isSilent(limits, set, question));
  return silent.length === 0 ? undefined : `“${set.name}” would be the nearest, but it gives no figure for ${silent.join(' and ')}, so no hot-smoked batch could be released by it.`;
}

function isSilent(limits: LimitBook, set: LimitSet, question: Question): boolean {
  const answers = set.answers.filter((answer) => answer.question === question && answer.besides !== true && answer.when?.process !== 'cold');
  const checkIds = answers.flatMap((answer) => [...(answer.checks ?? []), ...(answer.oneOf ?? [])]);
  return !checkIds.some((checkId) => findCheck(limits, checkId)?.kind !== 'no-figure');
}

function whyOf(kind: Kind, region: string, set: LimitSet, obstacle: string | undefined): string {
  const where = region.trim() === '' ? '' : ` in ${region.trim()}`;
  if (obstacle !== undefined) return `${obstacle} ${set.name} is the strictest of the values found. Ask your own authority what binds you.`;
  if (set.id === FALLBACK_SET_ID) return `No set here is written for ${KIND_WORDS[kind]}${where}, so the strictest of the values found is proposed. Ask your own authority what binds you.`;
  return `Written for ${KIND_WORDS[kind]}${where}. ${set.note}`;
}

function needSet(limits: LimitBook, setId: string): LimitSet {
  const set = findSet(limits, setId);
  if (set === undefined) throw new Error(`the limit sets lack ${setId}`);
  return set;
}
