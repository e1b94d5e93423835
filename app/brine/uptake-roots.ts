/** The roots that the diffusion of a slab in a bath of limited size is summed over. */

/**
 * The first positive roots of tan q = −αq, each found by bisection between (n − ½)π and nπ, where
 * there is exactly one. J. Crank, The Mathematics of Diffusion, 2nd ed. (1975), chapter 4 (from memory).
 * @param alpha water of the bath over water of the fish, above 0; Infinity for a bath without end
 * @param highest roots above this are left out
 */
export function bathRoots(alpha: number, highest: number): number[] {
  const roots: number[] = [];
  for (let n = 1; (n - 0.5) * Math.PI <= highest; n += 1) roots.push(bathRoot(alpha, n));
  return roots;
}

function bathRoot(alpha: number, n: number): number {
  let low = (n - 0.5) * Math.PI;
  if (alpha === Infinity) return low;
  let high = n * Math.PI;
  // sin q + αq·cos q has the roots of tan q + αq but none of its poles; at the low end its sign is that of the sine.
  const lowSign = n % 2 === 1 ? 1 : -1;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return middle;
    if (lowSign * (Math.sin(middle) + alpha * middle * Math.cos(middle)) > 0) low = middle;
    else high = middle;
  }
}
