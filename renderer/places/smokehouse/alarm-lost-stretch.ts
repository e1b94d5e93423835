/** What a load's record lacks because the program was off. Pure. */
import type { Output } from '../../../app/contract/contract.ts';

interface Lost {
  readonly fromMs: number;
  readonly toMs: number;
  /** Where nothing has been read since. */
  readonly pointIds: readonly string[];
}

type LoadShown = Pick<Output<'load.get'>, 'series' | 'needs'> & { readonly load: Pick<Output<'load.get'>['load'], 'inAtMs' | 'outAtMs' | 'cooledAtMs' | 'points'> };

/**
 * The stretch from the newest reading of a running load to the start of the program, where it is longer than a gap in
 * that record; null once anything was read after the start, and where nothing was lost.
 */
export function lostStretch({ load, series, needs }: LoadShown, openedMs: number): Lost | null {
  if (load.inAtMs === null || load.cooledAtMs !== null) return null;
  const read = needs.flatMap((need) => (need.lastAtMs === null ? [] : [{ atMs: need.lastAtMs, gapMs: series.find((each) => each.pointId === need.pointId)?.gapMs ?? 0 }]));
  const newest = read.toSorted((one, other) => other.atMs - one.atMs)[0];
  if (newest === undefined || openedMs - newest.atMs <= newest.gapMs) return null;
  const isWanted = (role: string): boolean => role === 'piece' || (role === 'chamber' && load.outAtMs === null);
  return { fromMs: newest.atMs, toMs: openedMs, pointIds: load.points.filter((point) => isWanted(point.role)).map((point) => point.id) };
}
