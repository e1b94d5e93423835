/** The book itself and the office: kitchen, people, instruments, smokers, places. */
import { z } from 'zod';
import { command, pure, query, startsBook } from '../endpoint.ts';
import { Failure } from '../envelope.ts';
import { LabelChoice } from './label-choice.ts';
import { Id, InstantMs, Role, TemperatureUnit, Ticks, TypedMass, TypedTemperature, Words } from './quantities.ts';

export const KitchenKind = z.enum(['food-service', 'seller', 'custom-processor', 'home']);
export const Address = z.strictObject({
  street: z.string().trim().max(200),
  city: Words,
  region: Words,
  postalCode: z.string().trim().max(20),
});
export const KitchenDraft = z.strictObject({
  name: Words,
  address: Address,
  phone: z.string().trim().max(40).optional(),
  /** IANA name; the only zone the book shows. */
  timeZone: z.string().min(1).max(64),
  temperatureUnit: TemperatureUnit,
  massUnit: z.enum(['lb', 'kg']),
  kind: KitchenKind,
  /** The limit set that decides for new batches; proposed from the kind. */
  decidingSetId: z.string().max(40),
  /** When the kitchen closes, as `22:00`. */
  closesAt: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/).optional(),
  /** Where guests' catch and bought fish are decided by different sets. */
  decidingFor: z.strictObject({ guest: z.string().max(60), supplier: z.string().max(60) }).optional(),
  /** The ground of 21 CFR 101.9(j) on which packs for sale carry no Nutrition Facts. */
  nutritionGround: z.enum(['retailer-total-sales', 'retailer-food-sales', 'low-volume', 'very-small', 'small-pack']).optional(),
  /** The paper on which the kitchen may use nitrite, such as a variance with its number; without one it may not. */
  nitriteGround: z.string().trim().max(200).optional(),
  /** How far packs, trim and remainder may be off the finished weight, in per cent, before it is asked why. */
  weightTolerancePercent: z.number().min(0).max(20).optional(),
});
export const Kitchen = z.strictObject({
  ...KitchenDraft.shape,
  /** True in the demonstration kitchen: everything in it is invented. */
  demo: z.boolean(),
  /** How its labels look; chosen on a page of its own. */
  labels: LabelChoice.optional(),
});
export const PersonDraft = z.strictObject({ initials: z.string().trim().min(1).max(4), name: z.string().trim().max(80), role: Role });
export const Person = z.strictObject({ id: Id, ...PersonDraft.shape });
/** A difference as a maker prints it, such as 0.5 °C. */
export const PrintedDifference = z.strictObject({ value: z.string().regex(/^\d{1,2}(\.\d{1,3})?$/), unit: TemperatureUnit });
export const InstrumentKind = z.enum(['wired-probe', 'hand-thermometer', 'logger', 'maximum-minimum']);
export const Instrument = z.strictObject({
  id: Id,
  name: Words,
  kind: InstrumentKind,
  /** Its error as a difference in ticks; without a check on file 2 °F (10,000 ticks). */
  errorTicks: z.int().min(0).max(900_000),
  /** Where its error comes from, in words. */
  errorGround: z.string(),
  /** The smallest step it shows, and how far its maker says it may be off; null where nobody told. */
  resolution: PrintedDifference.nullable().default(null),
  accuracyClass: PrintedDifference.nullable().default(null),
});
export const Smoker = z.strictObject({
  id: Id, name: Words, chamberInstrumentId: Id.nullable(), probeIds: z.array(Id),
  /** Where it is coldest (for hot smoke) and warmest (for cold), and the largest load it was proven with. */
  coldestPlace: z.string().default(''), warmestPlace: z.string().default(''), largestLoadGrams: z.number().nullable().default(null),
});
export const PlaceKind = z.enum(['brining-room', 'cooler', 'freezer']);
export const Place = z.strictObject({ id: Id, name: Words, kind: PlaceKind });

const BookState = z.strictObject({
  /** `none`: no book yet. `refused`: there is a file that can't be opened; `fault` says why. */
  state: z.enum(['none', 'open', 'refused']),
  readOnly: z.boolean(),
  fault: Failure.nullable(),
  kitchen: Kitchen.nullable(),
  people: z.array(Person),
  /** The back room's clock when it answered. */
  nowMs: InstantMs,
  /** What the front on this computer is: it names it on screen. */
  version: z.string(),
});

export const officeRequests = {
  'book.status': pure(z.strictObject({}), BookState),
  /** Proposes the deciding set for a kind of kitchen and region; the person may choose another. */
  'book.propose': pure(
    z.strictObject({ kind: KitchenKind, region: z.string().max(60) }),
    z.strictObject({ setId: z.string(), setName: z.string(), why: z.string(), choices: z.array(z.strictObject({ setId: z.string(), name: z.string(), mayDecide: z.boolean() })) }),
  ),
  'book.start': startsBook(z.strictObject({ kitchen: KitchenDraft, people: z.array(PersonDraft).min(1).max(30) }), BookState),
  'book.openDemo': startsBook(z.strictObject({}), BookState),
  'office.get': query(
    z.strictObject({}),
    z.strictObject({
      kitchen: Kitchen,
      people: z.array(Person),
      instruments: z.array(Instrument),
      smokers: z.array(Smoker),
      places: z.array(z.strictObject({ ...Place.shape, lastTicks: Ticks.nullable(), lastAtMs: InstantMs.nullable() })),
      backupHint: z.string(),
    }),
  ),
  'office.addPerson': command(PersonDraft, z.strictObject({ id: Id }), ['manager']),
  'office.addInstrument': command(
    z.strictObject({
      name: Words, kind: InstrumentKind, error: TypedTemperature.nullable(),
      resolution: PrintedDifference.nullable().optional(), accuracyClass: PrintedDifference.nullable().optional(),
    }),
    z.strictObject({ id: Id }),
  ),
  'office.addSmoker': command(
    z.strictObject({ name: Words, chamberInstrumentId: Id.nullable(), probeIds: z.array(Id).max(24), coldestPlace: z.string().trim().max(120).optional(), warmestPlace: z.string().trim().max(120).optional(), largestLoad: TypedMass.nullable().optional() }),
    z.strictObject({ id: Id }),
  ),
  'office.addPlace': command(z.strictObject({ name: Words, kind: PlaceKind }), z.strictObject({ id: Id })),
  'office.saveKitchen': command(KitchenDraft, z.strictObject({ kitchen: Kitchen }), ['manager']),
  /** Writes a copy of the book, by the database's own backup, beside it; answers its file name. */
  'book.backUp': query(z.strictObject({}), z.strictObject({ fileName: z.string(), bytes: z.int() })),
} as const;

export type Kitchen = z.infer<typeof Kitchen>;
export type KitchenDraft = z.infer<typeof KitchenDraft>;
export type Person = z.infer<typeof Person>;
export type Instrument = z.infer<typeof Instrument>;
export type Smoker = z.infer<typeof Smoker>;
export type Place = z.infer<typeof Place>;
export type BookState = z.infer<typeof BookState>;
