/** How far a sensor is behind what it stands in: a first-order lag with one time constant (computed). */

/** The share of a step that the sensor has followed after a time, 0 to 1; both in the same unit. */
export function settledShare(time: number, timeConstant: number): number {
  return -Math.expm1(-time / timeConstant);
}

/** How many time constants pass until the sensor has followed a share (below 1) of a step. */
export function constantsUntil(share: number): number {
  return -Math.log1p(-share);
}

/** How far it stays behind a steady ramp, in ticks. Behind while heating is the careful side; while cooling it is not. */
export function rampLagTicks(ticksPerSecond: number, timeConstantSeconds: number): number {
  return ticksPerSecond * timeConstantSeconds;
}
