/**
 * A pack's label: every text it carries, each with the rule that asks for it, and what it lacks.
 * Texts are printed as entered and never cut; how they are drawn is decided elsewhere.
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import { allergenPart } from './allergens.ts';
import { datePart, isUnprovenUseBy, readDates } from './date-lines.ts';
import { firmPart } from './firm-line.ts';
import { customIdentityBlocks, identityBlocks, readMarketName } from './identity-words.ts';
import { ingredientPart } from './ingredient-list.ts';
import { additiveGaps } from './label-additives.ts';
import { cleanLabel } from './label-cleaning.ts';
import type { LabelBlock, LabelInput, LabelPart, LabelPreview, SpeciesNames } from './label-types.ts';
import { readLotCode } from './lot-code.ts';
import { declareNetWeight } from './net-weight.ts';
import { nutritionGaps } from './nutrition-ground.ts';
import { notForSaleBlock, ownerPart } from './owner-words.ts';
import { packCode, readGtin } from './pack-code.ts';
import { storagePart } from './storage-words.ts';

const NET_SOURCE = '21 CFR 101.7 (from memory); FPLA 15 U.S.C. 1453(a)(3)(A)(ii) (from memory); rounded down: NIST UPLR (read)';

/**
 * Composes a label.
 * @param species names a label may and may not use; with none given any market name is taken
 * @returns blocks in reading order, what is missing (an empty list when nothing is) and the symbol's content; or a
 * sentence naming the field: an empty or wrong name, a weight that can't be, no such day, a wrong check character, a control character
 */
export function composeLabel(entered: LabelInput, species: readonly SpeciesNames[] = []): Outcome<LabelPreview> {
  const cleaned = cleanLabel(entered);
  if (!cleaned.ok) return cleaned;
  const input = cleaned.value;
  const { marketName } = input.identity;
  const name = readMarketName(marketName, species);
  if (!name.ok) return name;
  const net = declareNetWeight(input.netGrams, input.weighing ?? 'random');
  if (!net.ok) return net;
  const lot = readLotCode(input.lot);
  if (!lot.ok) return lot;
  const dates = readDates(input.dates);
  if (!dates.ok) return dates;
  const gtin = input.gtin === undefined ? good(undefined) : readGtin(input.gtin);
  if (!gtin.ok) return gtin;
  const owner = ownerOf(input, dates.value.packedOn);
  if (!owner.ok) return owner;

  const { pack, store, jurisdiction } = input;
  const isCustom = input.owner !== undefined;
  const keeping = { pack, store, jurisdiction, process: input.identity.process, isCustom, secondLanguage: input.secondLanguage };
  const storage = storagePart(keeping, dates.value, lot.value.smokedOn);
  const list = ingredientPart(input.ingredients, marketName);
  const allergens = allergenPart(input.ingredients, marketName);
  const firm = firmPart(input.kitchen, isCustom);
  const days = datePart(lot.value, dates.value, keeping);
  const weight = blocksOnly([{ element: 'L03', text: net.value.text, source: NET_SOURCE }]);
  const identity = blocksOnly(isCustom ? customIdentityBlocks(input.identity, input.owner?.pieces) : identityBlocks(input.identity));
  const parts = isCustom
    ? [blocksOnly([notForSaleBlock(jurisdiction)]), name.value, identity, owner.value, storage, list, allergens, weight, days, firm]
    : [name.value, identity, storage, list, allergens, firm, days, weight];
  const blocks = parts.flatMap((part) => part.blocks);
  const missing = [...parts.flatMap((part) => part.missing), ...(jurisdiction === 'ca-on' ? [] : additiveGaps(input.ingredients, marketName, species))];
  const printed = isUnprovenUseBy(keeping) ? { ...dates.value, useBy: undefined } : dates.value;
  return good({
    blocks,
    missing: isCustom ? missing : [...missing, ...nutritionGaps(input.nutritionGround, blocks)],
    code: packCode(lot.value, net.value, gtin.value, printed),
  });
}

function ownerOf(input: LabelInput, packedOn: Parameters<typeof ownerPart>[1]): Outcome<LabelPart> {
  const { owner } = input;
  if (owner === undefined) return good(blocksOnly([]));
  if (owner.pieces !== undefined && !(Number.isInteger(owner.pieces) && owner.pieces >= 1)) {
    return bad(`A pack can’t hold ${owner.pieces} pieces.`, 'owner.pieces', 'Count them: 1, 2, 3 …');
  }
  return ownerPart(owner, packedOn);
}

function blocksOnly(blocks: readonly LabelBlock[]): LabelPart {
  return { blocks, missing: [] };
}
