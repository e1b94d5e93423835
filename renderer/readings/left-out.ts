/** The readings that people have left out of a load's batches, for its chart. */
import { useQueries } from '@tanstack/react-query';
import { useMemo } from 'react';
import { ask } from '../bridge/bridge.ts';
import type { LeftOut } from '../chart/chart-model.ts';

/** The stretches left out of any of some batches; the answers are those that their lists of doubts show. */
export function useLeftOut(batchIds: readonly string[]): readonly LeftOut[] {
  const answers = useQueries({
    queries: batchIds.map((batchId) => ({
      queryKey: ['doubt.list', { batchId }], queryFn: () => ask('doubt.list', { batchId }), retry: false, staleTime: Infinity,
    })),
  });
  const doubts = answers.flatMap(({ data }) => data?.doubts ?? []);
  const key = JSON.stringify(doubts.flatMap(({ pointId, fromMs, toMs, decided }) => (decided?.decision === 'exclude' ? [{ pointId, fromMs, toMs }] : [])));
  // The same stretches are the same array, so that the chart is not drawn again.
  return useMemo(() => JSON.parse(key) as LeftOut[], [key]);
}
