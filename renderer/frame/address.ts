/** Where in the book the page is: `#/smokehouse/<id>?tab=…`. Works alike in the window and a browser. */
import { useSyncExternalStore } from 'react';

export const PLACES = ['fish-in', 'brine-bench', 'smokehouse', 'packing-table', 'cold-store', 'record-shelf', 'office'] as const;
export type PlaceName = (typeof PLACES)[number];

export interface Address {
  /** A place, or `print`. */
  readonly place: PlaceName | 'print';
  /** What follows the place, such as a load's or batch's id. */
  readonly rest: readonly string[];
  readonly query: URLSearchParams;
}

/** Reads a location hash; anything unknown is the first place. */
export function readAddress(hash: string): Address {
  const [path = '', search = ''] = hash.replace(/^#\/?/, '').split('?');
  const [head = '', ...rest] = path.split('/').map(decodeURIComponent);
  const place = head === 'print' ? 'print' : (PLACES.find((name) => name === head) ?? 'fish-in');
  return { place, rest: rest.filter((part) => part !== ''), query: new URLSearchParams(search) };
}

/** The hash of a place, for links and `go`. */
export function addressOf(place: PlaceName | 'print', ...rest: readonly string[]): string {
  return `#/${[place, ...rest.map(encodeURIComponent)].join('/')}`;
}

export function go(hash: string): void {
  window.location.hash = hash;
}

function subscribeHash(listener: () => void): () => void {
  window.addEventListener('hashchange', listener);
  return () => window.removeEventListener('hashchange', listener);
}

export function useAddress(): Address {
  return readAddress(useSyncExternalStore(subscribeHash, () => window.location.hash));
}
