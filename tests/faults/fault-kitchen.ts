/** A back room on a book with four stores, as the program furnishes it, outside any test: for processes that are killed or run out of disk. */
import type { Input, Output } from '../../app/contract/contract.ts';
import type { Reply } from '../../app/contract/envelope.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { furnishBackRoom } from '../../main/backroom/furnish.ts';

export interface FaultKitchen {
  /** The ids of its stores. */
  readonly storeIds: readonly string[];
  ask<N extends RequestName>(name: N, input: Input<N>, commandId?: string): Promise<Reply<Output<N>>>;
  takeFile(fileName: string, bytes: Uint8Array): Promise<Reply<{ fileId: string }>>;
  close(): Promise<void>;
}

export const STORES = 4;

/** Opens the book, or begins one where there is none. */
export async function openFaultKitchen(bookFile: string): Promise<FaultKitchen> {
  const room = await furnishBackRoom({ bookFile, dataFolder: null, demo: false, version: '0.0.0-fault' }, { handFile: null, log: () => undefined, announce: () => undefined });
  let personId: string | null = null;
  async function ask<N extends RequestName>(name: N, input: Input<N>, commandId: string | null = null): Promise<Reply<Output<N>>> {
    // Dispatch has parsed the value by the request's own output schema.
    return await room.ask(name, input, { front: 'browser', device: 'this computer', personId, commandId }) as Reply<Output<N>>;
  }
  let status = valueOf(await ask('book.status', {}));
  if (status.state === 'none') {
    status = valueOf(await ask('book.start', {
      kitchen: { name: 'Tamarack Narrows Lodge', address: { street: '1 Dock Road', city: 'Rainy Point', region: 'Minnesota', postalCode: '56600' }, timeZone: 'America/Chicago', temperatureUnit: 'F', massUnit: 'lb', kind: 'food-service', decidingSetId: 'lodge-default' },
      people: [{ initials: 'MG', name: 'Maja Grant', role: 'manager' }],
    }));
    personId = status.people[0]?.id ?? null;
    for (let store = 1; store <= STORES; store += 1) valueOf(await ask('office.addPlace', { name: `Store ${store}`, kind: 'cooler' }));
  }
  personId = status.people[0]?.id ?? null;
  const { places } = valueOf(await ask('office.get', {}));
  return { storeIds: places.map(({ id }) => id), ask, takeFile: (fileName, bytes) => room.takeFile(fileName, bytes), close: () => room.close() };
}

/** The value of a reply that must be one. */
export function valueOf<T>(reply: Reply<T>): T {
  if (reply.ok) return reply.value;
  throw new Error(`${reply.error.code}: ${reply.error.message}`);
}
