/** How services are written down, so that a missing or misnamed one does not compile. */
import type { Output, Parsed } from '../../app/contract/contract.ts';
import type { Endpoint } from '../../app/contract/endpoint.ts';
import type { RequestName } from '../../app/contract/names.ts';
import type { contract } from '../../app/contract/contract.ts';
import type { BookRoom, Room } from './room.ts';

type RoomFor<E extends Endpoint> = E['book'] extends 'none' ? Room : BookRoom;

/** A query may wait (for helper threads); it changes nothing. */
type QueryService<N extends RequestName> = (room: RoomFor<(typeof contract)[N]>, input: Parsed<N>) => Output<N> | Promise<Output<N>>;

/**
 * A command runs inside one transaction and can't wait. What must be waited for (parsing a long
 * file on a helper thread) is done before, in `prepare`, which changes nothing.
 */
interface PreparedCommand<N extends RequestName, P> {
  prepare(room: RoomFor<(typeof contract)[N]>, input: Parsed<N>): Promise<P>;
  commit(room: RoomFor<(typeof contract)[N]>, input: Parsed<N>, prepared: P): Output<N>;
}
type PlainCommand<N extends RequestName> = (room: RoomFor<(typeof contract)[N]>, input: Parsed<N>) => Output<N>;

export type Service<N extends RequestName> = (typeof contract)[N]['kind'] extends 'query'
  ? QueryService<N>
  : PlainCommand<N> | PreparedCommand<N, unknown>;

export type Services<N extends RequestName = RequestName> = { readonly [K in N]: Service<K> };
