/** The whole contract as JSON Schema, for scripts outside. */
import { z } from 'zod';
import { contract } from '../../app/contract/contract.ts';
import type { Endpoint } from '../../app/contract/endpoint.ts';

export interface ListedRequest {
  readonly name: string;
  readonly kind: Endpoint['kind'];
  readonly input: unknown;
  readonly output: unknown;
}

/** Every request with its kind and the schemas of what goes in and comes out. */
export function listRequests(): ListedRequest[] {
  return Object.entries(contract).map(([name, { kind, input, output }]) => ({
    name,
    kind,
    input: z.toJSONSchema(input, { io: 'input' }),
    output: z.toJSONSchema(output, { io: 'output' }),
  }));
}
