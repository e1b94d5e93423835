/** The label of a pack as text: `label.preview`, and the label as it is kept for printing. */
import { z } from 'zod';
import { pure } from '../endpoint.ts';
import { PackKind, Process, StoreKind } from './quantities.ts';

const Jurisdiction = z.enum(['us-federal', 'us-ak', 'us-ca', 'us-mi', 'us-ny', 'us-wi', 'ca-on']);
const DayText = z.string().describe('A day, YYYY-MM-DD');

const LabelKitchenIn = z.strictObject({
  name: z.string(),
  address: z.string().describe('Street and number; empty where a current directory lists it'),
  city: z.string(),
  region: z.string().describe('State in two letters'),
  postalCode: z.string(),
  phone: z.string().optional(),
  role: z.enum(['maker', 'packed-for', 'distributed-by']).optional().describe('What the named firm is to the pack; maker by default'),
});
const LabelIngredientIn = z.strictObject({
  name: z.string(),
  grams: z.number(),
  subIngredients: z.array(z.string()).optional(),
  allergens: z.array(z.string()).optional().describe('Major allergens, fish as “fish: Market Name”; an empty list says there are none'),
});
const LabelOwnerIn = z.strictObject({
  name: z.string(),
  licence: z.string().optional(),
  address: z.string().optional(),
  caughtOn: z.string().optional().describe('A day, YYYY-MM-DD, or two days joined by a slash'),
  caughtArea: z.string().optional(),
  pieces: z.number().optional(),
});

export const LabelPreviewIn = z.strictObject({
  kitchen: LabelKitchenIn,
  identity: z.strictObject({ process: Process, marketName: z.string(), form: z.string().optional() }),
  netGrams: z.number(),
  ingredients: z.array(LabelIngredientIn),
  dates: z.strictObject({ packedOn: DayText, smokedOn: DayText.optional(), useBy: DayText.optional(), bestBy: DayText.optional() }),
  lot: z.string().describe('Lot code with its check character, such as CO26195AE'),
  pack: PackKind,
  store: StoreKind,
  jurisdiction: Jurisdiction,
  owner: LabelOwnerIn.optional().describe('The guest whose own catch it is: the pack is not for sale'),
  gtin: z.string().optional(),
  weighing: z.enum(['random', 'fixed']).optional(),
  nutritionGround: z
    .enum(['retailer-total-sales', 'retailer-food-sales', 'low-volume', 'very-small', 'small-pack'])
    .optional()
    .describe('The ground of 21 CFR 101.9(j) on which a pack for sale has no Nutrition Facts'),
});

const blockFields = { element: z.string(), text: z.string(), source: z.string() };
const LabelGap = z.strictObject({ element: z.string(), why: z.string() });
const codeFields = { symbology: z.enum(['datamatrix', 'gs1datamatrix']), content: z.string() };

export const LabelPreviewOut = z.strictObject({
  blocks: z.array(z.strictObject(blockFields)),
  missing: z.array(LabelGap),
  code: z.strictObject(codeFields),
});

/** A label as it is kept and printed: texts with the least height of their letters, the symbol's module, the stock. */
export const LabelContent = z.strictObject({
  kind: z.enum(['sale', 'custom']),
  jurisdiction: Jurisdiction,
  stock: z.strictObject({ id: z.string(), name: z.string(), widthMm: z.number().positive(), heightMm: z.number().positive() }),
  blocks: z.array(
    z.strictObject({
      ...blockFields,
      panel: z.enum(['principal', 'information']),
      isBold: z.boolean(),
      leastLetterMm: z.number().positive(),
      measuredBy: z.enum(['capital', 'lower-case-o']),
    }),
  ),
  missing: z.array(LabelGap),
  code: z.strictObject({ ...codeFields, symbology: z.enum(['datamatrix', 'gs1datamatrix', 'qrcode']), dots: z.int().positive(), moduleMm: z.number().positive() }),
  netQuantityFootShare: z.number().nullable(),
});
export type LabelContent = z.infer<typeof LabelContent>;

export const labelPreviewRequests = {
  'label.preview': pure(LabelPreviewIn, LabelPreviewOut),
} as const;
