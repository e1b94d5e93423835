/**
 * Melting ice as a reference. A slush of crushed ice made from clean water and a little cold clean water,
 * stirred, stood two to three minutes, the tip 50 mm (2 in) deep and off the walls, is 0.0 °C (32.0 °F) at any
 * altitude to better than 0.01 °C (common practice). Salt lowers it: 0.06 °C for 0.1 % (computed).
 */
import type { KnownTemperature } from '../heat/boiling-point.ts';
import { differenceTicks } from '../measures/temperature.ts';

/** Below 0.01 °C for altitude and dissolved air. */
const OPEN_CELSIUS = 0.01;

/** The ice point: 0 °C, wherever the kitchen stands. */
export const ICE_POINT: KnownTemperature = {
  bounds: { lowTicks: 0, highTicks: 0 },
  errorTicks: differenceTicks(OPEN_CELSIUS, 'C'),
  ground: 'ice slush',
};
