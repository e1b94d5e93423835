/** Whether a request may come in at all: the address it was sent to and the page it came from. */

/** The two ways of writing this program's own address. */
function ownHosts(port: number): readonly string[] {
  return [`127.0.0.1:${port}`, `localhost:${port}`];
}

/**
 * Whether the `Host` header names this program. A page elsewhere whose name was made to point at
 * this computer arrives with that name in it.
 */
export function isOwnHost(host: string | undefined, port: number): boolean {
  return host !== undefined && ownHosts(port).includes(host.toLowerCase());
}

/** Whether a changing request came from a page of this very address; a missing `Origin` is refused. */
export function isOwnOrigin(origin: string | undefined, host: string | undefined, port: number): boolean {
  return origin !== undefined && isOwnHost(host, port) && origin === `http://${host?.toLowerCase()}`;
}
