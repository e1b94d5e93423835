/** What a page gets: one way to ask and one to listen, each on its one fixed channel. */
import { EVENT_CHANNEL, FRONT_NAMES, REQUEST_CHANNEL, REQUEST_NAMES } from '../../app/contract/names.ts';
import type { FrontName, RequestName } from '../../app/contract/names.ts';

/** The part of Electron's `ipcRenderer` that is used. */
export interface Channels {
  invoke(channel: string, ...values: unknown[]): Promise<unknown>;
  on(channel: string, listener: (event: unknown, payload: unknown) => void): unknown;
  removeListener(channel: string, listener: (event: unknown, payload: unknown) => void): unknown;
}

interface Meta {
  readonly commandId?: string | null;
  readonly personId?: string | null;
}

const KNOWN_NAMES: readonly string[] = [...REQUEST_NAMES, ...FRONT_NAMES];

/** Makes the two functions of the page over the given channels. */
export function makeSurface(channels: Channels) {
  return {
    /** Asks by a name of the contract; an unknown name throws at once, since only a bug can give one. */
    request(name: RequestName | FrontName, input: unknown, meta: Meta = {}): Promise<unknown> {
      if (!KNOWN_NAMES.includes(name)) throw new Error('There is no request of this name.');
      return channels.invoke(REQUEST_CHANNEL, name, input, {
        commandId: meta.commandId ?? null,
        personId: meta.personId ?? null,
      });
    },

    /** Calls `listener` with each event's payload, never with Electron's own event; the answer ends that. */
    subscribe(listener: (heard: unknown) => void): () => void {
      function hear(_event: unknown, payload: unknown): void {
        listener(payload);
      }
      channels.on(EVENT_CHANNEL, hear);
      return function unsubscribe() {
        channels.removeListener(EVENT_CHANNEL, hear);
      };
    },
  };
}
