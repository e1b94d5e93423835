/** Keeps every page where it is: no other windows, no other addresses, no network. */
import type { Event as ElectronEvent, Session, WebContents } from 'electron';
import { APP_SCHEME, isOwnPage } from './own-page.ts';

/** Schemes that stay inside the program; pictures drawn by a page are `data:` and `blob:`, the inspector is `devtools:`. */
const INNER_SCHEMES: readonly string[] = [`${APP_SCHEME}:`, 'data:', 'blob:', 'devtools:'];

/** Whether the window may ask for an address at all. */
export function mayBeAsked(address: string): boolean {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return false;
  }
  return INNER_SCHEMES.includes(url.protocol) && (url.protocol !== `${APP_SCHEME}:` || isOwnPage(address));
}

/** Forbids one page to open windows, hold foreign pages, or go elsewhere. */
export function keepInPlace(contents: WebContents): void {
  function stayUnlessOurs(event: ElectronEvent<{ url: string }>): void {
    if (!isOwnPage(event.url)) event.preventDefault();
  }
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', stayUnlessOurs);
  contents.on('will-redirect', stayUnlessOurs);
  contents.on('will-frame-navigate', stayUnlessOurs);
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

/** Cancels every request that would leave this computer. */
export function forbidNetwork(session: Session): void {
  session.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !mayBeAsked(details.url) }));
}
