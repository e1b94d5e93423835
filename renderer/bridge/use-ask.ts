/** Asking from a component: cached by request and input, asked again when the book says that its subject changed. */
import { useMutation, useQuery, useQueryClient, type QueryClient, type UseQueryResult } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { Failure } from '../../app/contract/envelope.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { ask, AskFailure, subscribe } from './bridge.ts';
import { openPace, type PaceClock } from './pace.ts';
import { isTouched } from './touched-questions.ts';

/** The answer to a query; `input` null leaves it unasked. Kept on screen while it is asked again. */
export function useAsk<N extends RequestName>(name: N, input: Input<N> | null): UseQueryResult<Output<N>, Error> {
  return useQuery({
    queryKey: [name, input],
    queryFn: () => ask(name, input as Input<N>),
    enabled: input !== null,
    retry: false,
    staleTime: Infinity,
    placeholderData: (before) => before,
  });
}

export interface Commanding<N extends RequestName> {
  /** Sends the command; answers its value, or null after a refusal (which `failure` then holds). */
  send(input: Input<N>): Promise<Output<N> | null>;
  readonly failure: Failure | null;
  readonly busy: boolean;
  clear(): void;
}

/** A command, or a question asked once, with its refusal beside it, for the form that sends it. */
export function useCommand<N extends RequestName>(name: N): Commanding<N> {
  const mutation = useMutation({ mutationFn: (input: Input<N>) => ask(name, input) });
  const { error } = mutation;
  return {
    send: async (input) => {
      try {
        return await mutation.mutateAsync(input);
      } catch (thrown) {
        if (thrown instanceof AskFailure) return null;
        throw thrown;
      }
    },
    failure: error instanceof AskFailure ? error.failure : null,
    busy: mutation.isPending,
    clear: mutation.reset,
  };
}

/** The refusal behind a failed query, or null. */
export function failureOf(error: Error | null): Failure | null {
  return error instanceof AskFailure ? error.failure : null;
}

const PAGE_CLOCK: PaceClock = {
  nowMs: () => performance.now(),
  after(ms, call) {
    const timer = setTimeout(call, ms);
    return () => clearTimeout(timer);
  },
};

/** Asks the shown questions again that a change of the book touches, each about once a second while it goes on changing. */
export function useBookEvents(): void {
  const client = useQueryClient();
  useEffect(() => {
    const pace = openPace((hash) => askAgain(client, hash), PAGE_CLOCK);
    const unsubscribe = subscribe((event) => {
      for (const query of client.getQueryCache().getAll()) {
        if (!isTouched(query.queryKey, event)) continue;
        // One that isn't shown is asked again when it is.
        query.invalidate();
        if (query.isActive()) pace.touch(query.queryHash);
      }
    });
    return () => {
      unsubscribe();
      pace.stop();
    };
  }, [client]);
}

/** One that is being asked already was asked before the change: its answer is awaited, then it is asked anew. */
async function askAgain(client: QueryClient, hash: string): Promise<void> {
  const query = client.getQueryCache().get(hash);
  if (query === undefined || !query.isActive()) return;
  if (query.state.fetchStatus === 'fetching') await client.refetchQueries({ predicate: (other) => other === query }, { cancelRefetch: false });
  await client.refetchQueries({ predicate: (other) => other === query });
}
