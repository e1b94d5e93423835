/** What the window gets for an address of ours: a file of the built pages, or nothing. */
import { protectiveHeaders } from './content-policy.ts';
import { APP_HOST, APP_SCHEME } from './own-page.ts';
import { readPageFile } from './page-files.ts';

/** Answers one request of the window: a file of the built pages, or 404. */
export async function answerAppRequest(pagesFolder: string, request: Request): Promise<Response> {
  const headers = { ...protectiveHeaders('window'), 'Cache-Control': 'no-store' };
  const { protocol: scheme, host } = new URL(request.url);
  const isOurs = scheme === `${APP_SCHEME}:` && host === APP_HOST && request.method === 'GET';
  // The path is taken as it was written: reading it through URL would resolve its dots before they can be refused.
  const urlPath = /^[a-z]+:\/\/[^/?#]*([^?#]*)/i.exec(request.url)?.[1] ?? '';
  const file = isOurs ? await readPageFile(pagesFolder, urlPath === '' ? '/' : urlPath) : null;
  if (file === null) return new Response(null, { status: 404, headers });
  return new Response(file.bytes, { status: 200, headers: { ...headers, 'Content-Type': file.contentType } });
}
