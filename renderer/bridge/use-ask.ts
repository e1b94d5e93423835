/** Asking from a component: cached by request and input, asked again when the book says that its subject changed. */
import { useMutation, useQuery, useQueryClient, type QueryClient, type UseQueryResult } from '@tanstack/react-query';
import { useEffect } from 'react';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { Failure } from '../../app/contract/envelope.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { ask, AskFailure, subscribe } from './bridge.ts';

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

/** A command with its refusal beside it, for the form that sends it. */
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

/** Asks every shown query again whenever the book changes; one book is small enough for that. */
export function useBookEvents(): void {
  const client = useQueryClient();
  useEffect(() => subscribe(() => { void refetchShown(client); }), [client]);
}

function refetchShown(client: QueryClient): Promise<void> {
  return client.invalidateQueries();
}
