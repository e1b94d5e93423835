/** The strength of a brine in every form that the trade writes it, in any brine temperature, with sugar, and by a float or hydrometer. */
import { bad, good, type Outcome } from '../measures/outcome.ts';
import {
  densityKgPerM3, isBrineCelsius, mixtureDensityKgPerM3, saltFractionOfDensity, SATURATED_SALT_FRACTION, SIXTY_FAHRENHEIT_CELSIUS, solveRising, type BrineMixture,
} from './density.ts';
import { floatReading, percentFromFloat, type FloatReading } from './float.ts';
import { firstSolidCelsius, saltFallsFirst, saturatedPercent } from './freezing.ts';
import { plainNumber } from './rounding.ts';
import {
  BAUME_MODULUS, brineByVolume, brineStrength, POUNDS_PER_US_GALLON_WATER, salometerOfPercent, STRENGTH_FORMS, strengthOfPercent, type StrengthForm,
} from './strength.ts';

/** Every form of a strength, each of which may be given: all as at 60 °F. */
export const TRADE_FORMS = [...STRENGTH_FORMS, 'gramsPerLitreBrine', 'poundsPerUsGallonWater', 'poundsPerUsGallonBrine'] as const;
export type TradeForm = (typeof TRADE_FORMS)[number];

/** One brine of salt and water in all forms. Its water-phase strength is its strength by weight. */
export type TradeStrength = Readonly<Record<TradeForm, number>>;

/** What is engraved on a stem; all are marked at 60 °F. */
export const STEM_SCALES = ['salometerDegrees', 'specificGravity60F', 'baumeDegrees'] as const satisfies readonly TradeForm[];
export type StemScale = (typeof STEM_SCALES)[number];

/** A reading on a stem, as the eye saw it. */
export interface StemReading {
  readonly scale: StemScale;
  readonly shown: number;
  /** Of the brine, 0 to 50. */
  readonly celsius: number;
  /** By weight of the whole brine; 0 unless given. */
  readonly sugarPercent?: number | undefined;
}

/** How a strength stands in one tub. */
export interface TubStrength {
  /** Salt over salt and water: what the fish tastes. */
  readonly waterPhasePercent: number;
  readonly densityKgPerM3: number;
  /** What forms first when it is cooled. With sugar in it ice comes a little later than this. */
  readonly firstSolid: { readonly kind: 'ice' | 'salt'; readonly celsius: number };
  /** The most salt that water holds at this temperature, in per cent of salt and water. */
  readonly saturatedPercent: number;
  /** False where some of the salt lies undissolved. */
  readonly holdsAll: boolean;
  /** What a salometer shows, uncorrected. */
  readonly float: FloatReading;
  /** The same on hydrometers; absent where the float is off its scale. */
  readonly stem?: Readonly<Record<StemScale, number>>;
}

const FORM_WORDS: Readonly<Record<TradeForm, string>> = {
  percentByWeight: '% by weight', salometerDegrees: '°SAL', specificGravity60F: 'specific gravity', baumeDegrees: '°Bé', gramsPerLitreWater: 'g per litre of water',
  gramsPerLitreBrine: 'g per litre of brine', poundsPerUsGallonWater: 'lb per US gallon of water', poundsPerUsGallonBrine: 'lb per US gallon of brine',
};
const SATURATED_PERCENT = 100 * SATURATED_SALT_FRACTION;
const MOST_SUGAR_PERCENT = 60;

/** Every form of a brine of `percent` salt by weight, 0 to 26.395. */
export function tradeStrengthOfPercent(percent: number): TradeStrength {
  const strength = strengthOfPercent(percent);
  const volume = brineByVolume(percent / 100);
  return {
    percentByWeight: percent,
    salometerDegrees: strength.salometerDegrees,
    specificGravity60F: strength.specificGravity60F,
    baumeDegrees: strength.baumeDegrees,
    gramsPerLitreWater: strength.gramsPerLitreWater,
    gramsPerLitreBrine: volume.gramsSaltPerLitreBrine,
    poundsPerUsGallonWater: strength.poundsPerUsGallonWater,
    poundsPerUsGallonBrine: volume.poundsSaltPerUsGallonBrine,
  };
}

/**
 * One strength, given in any form, in all of them.
 * @param value at 60 °F, from pure water to saturated
 * @returns every form, or a problem naming `value`
 */
export function tradeStrength(form: TradeForm, value: number): Outcome<TradeStrength> {
  const water = tradeStrengthOfPercent(0)[form];
  const saturated = tradeStrengthOfPercent(SATURATED_PERCENT)[form];
  const slip = saturated * 1e-12;
  const range = `Give ${plainNumber(water, 0)} to ${plainNumber(Math.floor(saturated * 1000) / 1000, 3)} ${FORM_WORDS[form]}.`;
  if (!Number.isFinite(value)) return bad('The strength is no number.', 'value', range);
  if (value < water - slip) return bad(`${plainNumber(value, 4)} ${FORM_WORDS[form]} is ${form === 'specificGravity60F' ? 'lighter than water' : 'less than no salt'}.`, 'value', range);
  if (value > saturated + slip) return bad(`${plainNumber(value, 4)} ${FORM_WORDS[form]} is more salt than water can hold: 26.395 % by weight at most, at 60 °F.`, 'value', range);
  return good(tradeStrengthOfPercent(percentWithin(form, Math.min(saturated, Math.max(water, value)))));
}

/** The strength in per cent of a value between water and saturation. */
function percentWithin(form: TradeForm, value: number): number {
  if (form === 'gramsPerLitreBrine') return 100 * solveRising((fraction) => brineByVolume(fraction).gramsSaltPerLitreBrine, value, SATURATED_SALT_FRACTION);
  if (form === 'poundsPerUsGallonBrine') return 100 * solveRising((fraction) => brineByVolume(fraction).poundsSaltPerUsGallonBrine, value, SATURATED_SALT_FRACTION);
  if (form === 'poundsPerUsGallonWater') return Math.min(SATURATED_PERCENT, (100 * value) / (POUNDS_PER_US_GALLON_WATER + value));
  return percentOfFirstFive(form, value);
}

function percentOfFirstFive(form: StrengthForm, value: number): number {
  const strength = brineStrength(form, value);
  if (!strength.ok) throw new Error(`within its range but refused: ${form} ${value}`);
  return strength.value.percentByWeight;
}

/**
 * How a strength stands in a tub: density, freezing, what the water holds, and what a float will show.
 * @param percentByWeight salt of the whole brine
 * @param celsius of the brine, 0 to 50
 * @param sugarPercent by weight of the whole brine, 0 to 60
 * @returns the figures, or a problem naming `percentByWeight`, `celsius` or `sugarPercent`
 */
export function strengthInTub(percentByWeight: number, celsius: number, sugarPercent = 0): Outcome<TubStrength> {
  if (!isBrineCelsius(celsius)) return bad(`A brine at ${plainNumber(celsius, 1)} °C can’t be worked out here.`, 'celsius', 'Give a temperature from 0 to 50 °C.');
  if (!(sugarPercent >= 0 && sugarPercent <= MOST_SUGAR_PERCENT)) return bad(`A brine with ${plainNumber(sugarPercent, 1)} % sugar can’t be.`, 'sugarPercent', 'Give 0 to 60 % of the whole brine.');
  if (!(percentByWeight >= 0)) return bad(`A brine with ${plainNumber(percentByWeight, 2)} % salt can’t be.`, 'percentByWeight', 'Give zero or more.');
  const waterPhasePercent = (100 * percentByWeight) / (100 - sugarPercent);
  if (waterPhasePercent > SATURATED_PERCENT * (1 + 1e-12)) {
    const beside = sugarPercent === 0 ? '' : ` beside ${plainNumber(sugarPercent, 1)} % sugar`;
    return bad(`${plainNumber(percentByWeight, 2)} % salt${beside} is more than the water can hold.`, 'percentByWeight', `Give at most ${plainNumber(Math.floor(SATURATED_PERCENT * (100 - sugarPercent)) / 100, 2)} %.`);
  }
  const mixture = tubMixture(percentByWeight, sugarPercent);
  const float = floatReading(mixture, celsius);
  const held = saturatedPercent(celsius);
  return good({
    waterPhasePercent,
    densityKgPerM3: mixtureDensityKgPerM3(mixture, celsius),
    firstSolid: { kind: saltFallsFirst(waterPhasePercent) ? 'salt' : 'ice', celsius: firstSolidCelsius(waterPhasePercent) },
    saturatedPercent: held,
    holdsAll: waterPhasePercent <= held,
    float,
    ...(float.kind === 'shows' ? { stem: stemOf(float.degrees) } : {}),
  });
}

function tubMixture(saltPercent: number, sugarPercent: number): BrineMixture {
  return { saltGrams: saltPercent, waterGrams: 100 - saltPercent - sugarPercent, sugarGrams: sugarPercent, alcoholGrams: 0, otherGrams: 0, spiceGrams: 0 };
}

/** The same mark on the three scales. */
function stemOf(degrees: number): Record<StemScale, number> {
  const { salometerDegrees, specificGravity60F, baumeDegrees } = strengthOfPercent((degrees * SATURATED_PERCENT) / 100);
  return { salometerDegrees, specificGravity60F, baumeDegrees };
}

/**
 * The salt in a brine by a float or hydrometer, freed of temperature and of sugar.
 * @returns per cent salt by weight of the whole brine, or a problem naming `shown`, `celsius` or `sugarPercent`
 */
export function percentFromStem(reading: StemReading): Outcome<number> {
  const degrees = salometerOfStem(reading);
  if (!degrees.ok) return degrees;
  const percent = percentFromFloat(degrees.value, reading.celsius, reading.sugarPercent ?? 0);
  if (percent.ok || percent.problem.field !== 'shownDegrees') return percent;
  return bad(percent.problem.message, 'shown', percent.problem.remedy);
}

/** Salometer degrees at the mark that a hydrometer was read at. */
function salometerOfStem({ scale, shown }: StemReading): Outcome<number> {
  if (!Number.isFinite(shown)) return bad('The reading is no number.', 'shown', 'Type the mark at the surface of the brine.');
  if (scale === 'salometerDegrees') return good(shown);
  if (scale === 'baumeDegrees' && shown >= BAUME_MODULUS) return bad(`A hydrometer can’t show ${plainNumber(shown, 1)} °Bé.`, 'shown', 'Give the mark at the surface, 0 to 24.');
  const gravity = scale === 'specificGravity60F' ? shown : BAUME_MODULUS / (BAUME_MODULUS - shown);
  const fraction = saltFractionOfDensity(gravity * densityKgPerM3(0, SIXTY_FAHRENHEIT_CELSIUS), SIXTY_FAHRENHEIT_CELSIUS);
  if (fraction !== undefined) return good(salometerOfPercent(100 * fraction));
  const words = `${plainNumber(shown, 4)} ${scale === 'specificGravity60F' ? 'specific gravity' : '°Bé'}`;
  if (gravity < 1) return bad(`${words} is lighter than water at 60 °F.`, 'shown', 'Cool the sample to 60 °F and read again.');
  return bad(`${words} is heavier than any brine of salt alone.`, 'shown', 'Weigh a cup of it, add the same weight of water, read again with half the sugar, and double the salt.');
}
