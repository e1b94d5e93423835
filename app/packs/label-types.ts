/** What goes into a label and what comes out: the shapes that the functions of a label share. */
import type { Weighing } from './net-weight.ts';

export type FirmRole = 'maker' | 'packed-for' | 'distributed-by';
export type LabelProcess = 'hot' | 'cold';
export type LabelPack = 'vacuum' | 'air' | 'unpacked';
export type LabelStore = 'refrigerated' | 'frozen';
export type Jurisdiction = 'us-federal' | 'us-ak' | 'us-ca' | 'us-mi' | 'us-ny' | 'us-wi' | 'ca-on';

/** Why a pack for sale carries no Nutrition Facts: the grounds of 21 CFR 101.9(j). */
export type NutritionGround = 'retailer-total-sales' | 'retailer-food-sales' | 'low-volume' | 'very-small' | 'small-pack';

export interface LabelKitchen {
  readonly name: string;
  /** Street and number; may be empty. */
  readonly address: string;
  readonly city: string;
  readonly region: string;
  readonly postalCode: string;
  readonly phone?: string | undefined;
  /** What the named firm is to the pack; the maker unless said otherwise. */
  readonly role?: FirmRole | undefined;
}

export interface LabelIdentity {
  readonly process: LabelProcess;
  readonly marketName: string;
  /** Form of the food, `fillet portion`. */
  readonly form?: string | undefined;
}

export interface LabelIngredient {
  readonly name: string;
  readonly grams: number;
  /** Parts of a bought ingredient, as its own label has them. */
  readonly subIngredients?: readonly string[] | undefined;
  /** Major allergens in it, or `fish: Market Name`; an empty list says there are none. */
  readonly allergens?: readonly string[] | undefined;
}

/** What one species may be called on a label, and what people call it that a label may not. */
export interface SpeciesNames {
  readonly marketName: string;
  readonly alsoMarketNames: readonly string[];
  readonly vernacularNames: readonly string[];
  /** `none` where neither nitrite nor nitrate is permitted in it. */
  readonly nitriteAllowed?: string | undefined;
}

/** Days as YYYY-MM-DD. */
export interface LabelDates {
  readonly packedOn: string;
  readonly smokedOn?: string | undefined;
  readonly useBy?: string | undefined;
  readonly bestBy?: string | undefined;
}

/** A guest whose own catch it is. */
export interface LabelOwner {
  readonly name: string;
  readonly licence?: string | undefined;
  readonly address?: string | undefined;
  /** A day, or two joined as ISO 8601 has it: `2026-07-11/2026-07-12`. */
  readonly caughtOn?: string | undefined;
  readonly caughtArea?: string | undefined;
  readonly pieces?: number | undefined;
}

export interface LabelInput {
  readonly kitchen: LabelKitchen;
  readonly identity: LabelIdentity;
  readonly netGrams: number;
  readonly ingredients: readonly LabelIngredient[];
  readonly dates: LabelDates;
  readonly lot: string;
  readonly pack: LabelPack;
  readonly store: LabelStore;
  readonly jurisdiction: Jurisdiction;
  readonly owner?: LabelOwner | undefined;
  readonly gtin?: string | undefined;
  readonly weighing?: Weighing | undefined;
  readonly nutritionGround?: NutritionGround | undefined;
  /** The storage words a second time, in a language for which a source has them. */
  readonly secondLanguage?: 'fr' | undefined;
}

/** One piece of text, the rule that asks for it (L01 to L15) and that rule's source with its mark. */
export interface LabelBlock {
  readonly element: string;
  readonly text: string;
  readonly source: string;
}

/** What the label still lacks: which rule, why, and where to enter it. */
export interface LabelGap {
  readonly element: string;
  readonly why: string;
}

/** What the symbol on the label holds. Symbologies are named as the encoder names them. */
export interface LabelCode {
  readonly symbology: 'datamatrix' | 'gs1datamatrix';
  readonly content: string;
}

export interface LabelPreview {
  readonly blocks: readonly LabelBlock[];
  readonly missing: readonly LabelGap[];
  readonly code: LabelCode;
}

/** Part of a label: some blocks, and what they lack. */
export interface LabelPart {
  readonly blocks: readonly LabelBlock[];
  readonly missing: readonly LabelGap[];
}
