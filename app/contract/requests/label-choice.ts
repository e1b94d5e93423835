/** How a kitchen's labels look: stock, pouch, optional elements, its mark, its symbol. */
import { z } from 'zod';
import { command, query } from '../endpoint.ts';
import { Id } from './quantities.ts';

/** Labels on a sheet of paper, in millimetres from its upper left corner; `across` and `down` from one label's edge to the next one's. */
export const LabelSheet = z.strictObject({
  pageWidthMm: z.number().min(50).max(500), pageHeightMm: z.number().min(50).max(500),
  columns: z.int().min(1).max(20), rows: z.int().min(1).max(40),
  leftMm: z.number().min(0), topMm: z.number().min(0), acrossMm: z.number().positive(), downMm: z.number().positive(),
});

/** A stock of the kitchen's own: labels on a roll, or a sheet of them. Millimetres. */
export const LabelStock = z.strictObject({
  id: Id,
  name: z.string().trim().min(1).max(80),
  widthMm: z.number().min(20).max(300),
  heightMm: z.number().min(15).max(400),
  /** As entered, to be shown again in the unit of the person. */
  unit: z.enum(['mm', 'in']),
  /** Null for a roll. */
  sheet: LabelSheet.nullable(),
});

/** The side of the pouch that shows the label. */
export const Pouch = z.strictObject({ widthMm: z.number().min(20).max(1500), heightMm: z.number().min(20).max(1500), unit: z.enum(['mm', 'in']) });

/** A line of text, or a PNG of at most 100 kB in the book's inbox. */
export const LabelMark = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('text'), text: z.string().trim().min(1).max(60) }),
  z.strictObject({ kind: z.literal('picture'), fileId: Id, widthPixels: z.int().positive(), heightPixels: z.int().positive() }),
]);

/** What a label may go without where no rule asks for it. */
export const OPTIONAL_ELEMENTS = ['form', 'smoked-on', 'best-by', 'phone', 'licence', 'owner-address', 'catch'] as const;

export const LabelChoice = z.strictObject({
  /** Dots an inch of the printer's head. */
  dpi: z.literal([203, 300]),
  /** Null until somebody says: letters are then made for a side of up to 100 square inches. */
  pouch: Pouch.nullable(),
  /** Whether pouch or label keep the fish from being seen: its form must then be said (21 CFR 101.3(c), from memory). */
  fishHidden: z.boolean(),
  optional: z.array(z.enum(OPTIONAL_ELEMENTS)),
  mark: LabelMark.nullable(),
  /** The storage words a second time, where a published source has them. */
  secondLanguage: z.literal('fr').nullable(),
  symbol: z.enum(['datamatrix', 'qr']),
  /** The kitchen's licensed trade item number in fourteen digits; null: the symbol holds lot and pack alone. */
  gtin: z.string().regex(/^\d{14}$/).nullable(),
  /** What the kitchen is to the packs. */
  role: z.enum(['maker', 'packed-for', 'distributed-by']),
});

/** What is chosen as long as nobody has. */
export const USUAL_CHOICE: z.infer<typeof LabelChoice> = {
  dpi: 203, pouch: null, fishHidden: true, optional: [...OPTIONAL_ELEMENTS], mark: null, secondLanguage: null, symbol: 'datamatrix', gtin: null, role: 'maker',
};

const TypedLength = z.string().max(20);
const TypedSize = z.strictObject({ width: TypedLength, height: TypedLength, unit: z.enum(['mm', 'in']) });

/** A stock as typed, all lengths in its unit. */
export const StockDraft = z.strictObject({
  name: z.string().max(80),
  ...TypedSize.shape,
  sheet: z.strictObject({
    pageWidth: TypedLength, pageHeight: TypedLength, columns: TypedLength, rows: TypedLength,
    left: TypedLength, top: TypedLength, across: TypedLength, down: TypedLength,
  }).nullable(),
});

export const LabelChoiceDraft = z.strictObject({
  ...LabelChoice.omit({ pouch: true, gtin: true, mark: true }).shape,
  pouch: TypedSize.nullable(),
  gtin: z.string().max(40),
  mark: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('text'), text: z.string().max(200) }),
    z.strictObject({ kind: z.literal('picture'), fileId: Id }),
  ]),
});

export const labelChoiceRequests = {
  'label.choice': query(z.strictObject({}), z.strictObject({ choice: LabelChoice, isChosen: z.boolean(), ownStocks: z.array(LabelStock) })),
  'label.choose': command(LabelChoiceDraft, z.strictObject({ choice: LabelChoice }), ['manager']),
  /** Adds a stock, or mends one of the kitchen's own; labels printed before keep theirs. */
  'label.saveStock': command(z.strictObject({ stockId: Id.nullable(), draft: StockDraft }), z.strictObject({ stock: LabelStock })),
  /** The picture of the kitchen's mark. */
  'label.mark': query(z.strictObject({ fileId: Id }), z.strictObject({ base64: z.base64() })),
} as const;

export type LabelSheet = z.infer<typeof LabelSheet>;
export type LabelStock = z.infer<typeof LabelStock>;
export type LabelChoice = z.infer<typeof LabelChoice>;
export type LabelChoiceDraft = z.infer<typeof LabelChoiceDraft>;
export type LabelMark = z.infer<typeof LabelMark>;
export type StockDraft = z.infer<typeof StockDraft>;
export type OptionalElement = (typeof OPTIONAL_ELEMENTS)[number];
