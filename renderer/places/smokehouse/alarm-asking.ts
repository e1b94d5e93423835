/** Alarms are found when they are asked for: every half minute, and whenever the book changes. */
import { useEffect } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { useAsk } from '../../bridge/use-ask.ts';

const EVERY_MS = 30_000;

/** The alarms of every load that runs, asked for once however many parts of the page show them; undefined until they have come. */
export function useAlarms(): Output<'alarms.list'> | undefined {
  const { data, refetch } = useAsk('alarms.list', { loadId: null });
  useEffect(() => {
    const timer = setInterval(() => { void refetch(); }, EVERY_MS);
    return () => clearInterval(timer);
  }, [refetch]);
  return data;
}
