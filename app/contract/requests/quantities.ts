/** The quantities every request shares, each with its unit in its name. */
import { z } from 'zod';

export const Id = z.string().min(1).max(64);
/** An instant in UTC milliseconds. */
export const InstantMs = z.int().min(0).max(8_640_000_000_000_000);
/** A calendar day in the book's time zone. */
export const Day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
/** A temperature in 1/9000 °C; down to −200 °C, up to 1000 °C. */
export const Ticks = z.int().min(-1_800_000).max(9_000_000);
export const TemperatureUnit = z.enum(['F', 'C']);
export const MassUnit = z.enum(['g', 'kg', 'lb', 'oz']);
/** A weight as typed: the back room reads it and keeps both text and grams. */
export const TypedMass = z.strictObject({ text: z.string().max(40), unit: MassUnit });
/** A temperature as typed. */
export const TypedTemperature = z.strictObject({ text: z.string().max(40), unit: TemperatureUnit });
/** A weight as kept: what was entered beside its grams. */
export const EnteredMass = z.strictObject({ text: z.string(), unit: MassUnit, grams: z.number().positive() });
/** A line of text a person typed; empty is refused. */
export const Words = z.string().trim().min(1).max(200);

export const Process = z.enum(['hot', 'cold']);
export const PackKind = z.enum(['vacuum', 'air', 'unpacked']);
export const StoreKind = z.enum(['refrigerated', 'frozen']);
export const Role = z.enum(['hand', 'chef', 'manager']);
export const PointRole = z.enum(['piece', 'chamber', 'room', 'brine', 'store']);

/** A temperature series: base64 of little-endian float64 instants (ms) and int32 ticks, `length` of each. */
export const Series = z.strictObject({
  length: z.int().nonnegative(),
  atMs: z.base64(),
  ticks: z.base64(),
});

export type Id = z.infer<typeof Id>;
export type InstantMs = z.infer<typeof InstantMs>;
export type TypedMass = z.infer<typeof TypedMass>;
export type TypedTemperature = z.infer<typeof TypedTemperature>;
export type EnteredMass = z.infer<typeof EnteredMass>;
export type Process = z.infer<typeof Process>;
export type PackKind = z.infer<typeof PackKind>;
export type StoreKind = z.infer<typeof StoreKind>;
export type Role = z.infer<typeof Role>;
export type PointRole = z.infer<typeof PointRole>;
export type Series = z.infer<typeof Series>;
