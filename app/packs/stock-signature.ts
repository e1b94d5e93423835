/** A signature drawn on the screen: its strokes as an SVG path in a box of 600 by 200. */
import { bad, good, type Outcome } from '../measures/outcome.ts';

export const SIGNATURE_WIDTH = 600;
export const SIGNATURE_HEIGHT = 200;
/** A dot or a slip of the finger is shorter than this; the box is 600 wide (our choice). */
const LEAST_LENGTH = 40;
const PATH = /^(?:[ML]-?\d{1,4}(?:\.\d)?,-?\d{1,4}(?:\.\d)? ?)*$/;

/**
 * Takes a signature’s path.
 * @param path only `M x,y` and `L x,y` with one decimal at most, as the page draws it: nothing else can get into a print
 * @returns the path, or a sentence: no strokes, a dot, other signs
 */
export function readSignature(path: string, field = 'signature.path'): Outcome<string> {
  const trimmed = path.trim();
  if (!PATH.test(trimmed)) return bad('The signature can’t be read.', field, 'Clear it and sign again.');
  const points = [...trimmed.matchAll(/([ML])(-?[\d.]+),(-?[\d.]+)/g)].map(([, what, x, y]) => ({ what, x: Number(x), y: Number(y) }));
  if (!points.some(({ what }) => what === 'L')) return bad('The signature has no strokes.', field, 'Sign in the box with a finger or a pen, or hand over without and say why.');
  const length = points.reduce((total, point, index) => {
    const before = points[index - 1];
    return point.what === 'M' || before === undefined ? total : total + Math.hypot(point.x - before.x, point.y - before.y);
  }, 0);
  if (length < LEAST_LENGTH) return bad('The signature is only a dot.', field, 'Sign in the box with a finger or a pen.');
  return good(trimmed);
}
