/**
 * Chromium knows no `alderbook:` scheme, so the page lives at an https address that is never asked for
 * outside: `alderbook://app/x` is `https://app.alderbook.test/x`. The host is kept, so that relative
 * addresses and `'self'` mean the same.
 */
const SCHEME = 'alderbook';
const WEB_SUFFIX = '.alderbook.test';

/** The address that Chromium is given. */
export function toWeb(address: string): string {
  const match = /^alderbook:\/\/([^/?#]*)(.*)$/s.exec(address);
  return match === null ? address : `https://${match[1]}${WEB_SUFFIX}${match[2] === '' ? '/' : match[2]}`;
}

/** The address that the program sees. */
export function fromWeb(address: string): string {
  const match = /^https:\/\/([^/?#]*)\.alderbook\.test(.*)$/s.exec(address);
  return match === null ? address : `${SCHEME}://${match[1]}${match[2]}`;
}
