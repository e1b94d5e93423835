/** Looking for a place in what is in order, by halving. */

/**
 * The first place from zero on at which something holds that then holds to the end; `count` where it never does.
 * @param holds asked about places below `count` only
 */
export function firstWhere(count: number, holds: (place: number) => boolean): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
