/** The readings in doubt of some batches, for their chart. */
import { useQueries } from '@tanstack/react-query';
import { useMemo } from 'react';
import { ask } from '../bridge/bridge.ts';
import type { Doubted } from '../chart/chart-model.ts';

/** What was left out of any of these batches, and what waits for a decision; the answers are those that their lists of doubts show. */
export function useDoubted(batchIds: readonly string[]): readonly Doubted[] {
  const answers = useQueries({
    queries: batchIds.map((batchId) => ({
      queryKey: ['doubt.list', { batchId }], queryFn: () => ask('doubt.list', { batchId }), retry: false, staleTime: Infinity,
    })),
  });
  const doubts = answers.flatMap(({ data }) => data?.doubts ?? []);
  const key = JSON.stringify(doubts.flatMap(({ pointId, fromMs, toMs, decided }) => (decided?.decision === 'keep' ? [] : [{ pointId, fromMs, toMs, isLeftOut: decided !== null }])));
  // The same stretches are the same array, so that the chart is not drawn again.
  return useMemo(() => JSON.parse(key) as Doubted[], [key]);
}
