/** Which addresses are pages of ours in the window. */

export const APP_SCHEME = 'alderbook';
export const APP_HOST = 'app';
/** The address that the window opens. */
export const START_PAGE = `${APP_SCHEME}://${APP_HOST}/`;

/** Whether an address is exactly ours; what only looks like it (another host, a port, a user name) is not. */
export function isOwnPage(address: string): boolean {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return false;
  }
  return url.protocol === `${APP_SCHEME}:` && url.host === APP_HOST && url.username === '' && url.password === '';
}
