/**
 * The statement of identity: what was done to the fish and its market name (21 CFR 101.3, from memory;
 * market names: FDA, The Seafood List, second-hand). “Cold” is not forced by a rule; it is printed
 * because a cold-smoked pack keeps differently.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import type { LabelBlock, LabelIdentity, LabelPart, SpeciesNames } from './label-types.ts';

const SOURCE = '21 CFR 101.3(a), (b), (d) (from memory); FDA, The Seafood List (second-hand)';
const FORM_SOURCE = '21 CFR 101.3(c) (from memory)';
/** Names that do not say which fish it is. */
const NO_SPECIES = /^(fish|fishes|fillets?|mixed fish|other|seafood|species|unknown|unknown fish|unknown species)$/i;

/**
 * A market name fit to be the identity.
 * @param marketName cleaned and not empty
 * @param species the names known; with none, any name that says a species is taken
 * @returns the name, with a gap where it is not among the names known; or a sentence: it names no species, or is a
 * trade name of one that has a market name
 */
export function readMarketName(marketName: string, species: readonly SpeciesNames[], field = 'identity.marketName'): Outcome<LabelPart> {
  if (NO_SPECIES.test(marketName) || !/\p{L}/u.test(marketName)) {
    return bad(`“${marketName}” does not say which fish it is.`, field, 'Enter the market name of the species, such as Coho Salmon.');
  }
  const isName = (name: string): boolean => name.toLowerCase() === marketName.toLowerCase();
  if (species.some((one) => isName(one.marketName) || one.alsoMarketNames.some(isName))) return good({ blocks: [], missing: [] });
  const right = species.find((one) => one.vernacularNames.some(isName));
  if (right !== undefined) {
    return bad(`“${marketName}” is what people call it, not its market name.`, field, `Use ${right.marketName}.`);
  }
  if (species.length === 0) return good({ blocks: [], missing: [] });
  const why = `“${marketName}” is not among the market names this program knows. Look it up in FDA’s Seafood List, or choose the species at fish in.`;
  return good({ blocks: [], missing: [{ element: 'L01', why }] });
}

/** The species that a market name stands for, by its first name or another that it may bear. */
export function readLabelName(marketName: string, species: readonly SpeciesNames[]): SpeciesNames | undefined {
  const isName = (name: string): boolean => name.toLowerCase() === marketName.toLowerCase();
  return species.find((one) => isName(one.marketName)) ?? species.find((one) => one.alsoMarketNames.some(isName));
}

/** Identity and form of a pack for sale: `SMOKED COHO SALMON`, `Hot smoked fillet portion`. */
export function identityBlocks(identity: LabelIdentity): readonly LabelBlock[] {
  const words = identity.process === 'hot' ? 'Smoked' : 'Cold smoked';
  return [{ element: 'L01', text: `${words} ${identity.marketName}`.toUpperCase(), source: SOURCE }, ...formBlocks(identity)];
}

/** Identity of a guest's own fish, with its pieces: `Smoked Chinook Salmon - 2 pieces`. */
export function customIdentityBlocks(identity: LabelIdentity, pieces: number | undefined): readonly LabelBlock[] {
  const words = identity.process === 'hot' ? 'Smoked' : 'Cold smoked';
  const count = pieces === undefined ? '' : ` - ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}`;
  return [{ element: 'L01', text: `${words} ${identity.marketName}${count}`, source: SOURCE }, ...formBlocks(identity)];
}

function formBlocks({ process, form = '' }: LabelIdentity): readonly LabelBlock[] {
  if (form === '') return [];
  return [{ element: 'L02', text: `${process === 'hot' ? 'Hot' : 'Cold'} smoked ${form}`, source: FORM_SOURCE }];
}
