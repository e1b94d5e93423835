/** The window's own address, `alderbook://app/…`: the built pages and nothing else. */
import { protocol } from 'electron';
import { answerAppRequest } from './app-answer.ts';
import { APP_SCHEME } from './own-page.ts';

/** Must run before Electron is ready. */
export function registerAppScheme(): void {
  protocol.registerSchemesAsPrivileged([{ scheme: APP_SCHEME, privileges: { standard: true, secure: true } }]);
}

/** Serves the pages; once, after Electron is ready. */
export function serveAppScheme(pagesFolder: string): void {
  protocol.handle(APP_SCHEME, (request) => answerAppRequest(pagesFolder, request));
}
