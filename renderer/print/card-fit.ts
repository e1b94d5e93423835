/** Fitting a card on its page. Pure. */

/** From large to the smallest that can be read at a sink, in points. */
export const CARD_TYPE_POINTS = [11.5, 11, 10.5, 10, 9.5, 9, 8.5, 8, 7.5, 7] as const;
const PIXELS_PER_MM = 96 / 25.4;
/** Browsers round a line's height on paper otherwise than on screen; this much is kept free. */
const SPARE_MM = 3;

export interface CardPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
}

/** A5, or half a US letter sheet for a kitchen that weighs in pounds. */
export function cardPageOf(massUnit: 'lb' | 'kg'): CardPage {
  return massUnit === 'lb' ? { widthMm: 140, heightMm: 216, marginMm: 8 } : { widthMm: 148, heightMm: 210, marginMm: 8 };
}

/** Width of what is printed, in mm. */
export function printedWidthMm({ widthMm, marginMm }: CardPage): number {
  return widthMm - 2 * marginMm;
}

/**
 * The largest type at which a card keeps to one page.
 * @param heightAt how high the card is, in CSS pixels, in a type of so many points
 * @returns points, or null where even the smallest runs over
 */
export function fitType(page: CardPage, heightAt: (points: number) => number): number | null {
  const roomPixels = (page.heightMm - 2 * page.marginMm - SPARE_MM) * PIXELS_PER_MM;
  return CARD_TYPE_POINTS.find((points) => heightAt(points) <= roomPixels) ?? null;
}
