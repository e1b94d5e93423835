/** The real browser front on a free port, over a fake back room and a small folder of pages. */
import { mkdtempSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { serveBrowser } from '../../main/browser/serve.ts';
import { openFakeDoor } from './fake-door.ts';
import { sendRaw } from './raw-request.ts';
import type { RawRequest } from './raw-request.ts';

export const SECRET = 'not a page of ours';

/** Beside the pages lies a file that nobody may read, also by a link and by a folder with a similar name. */
function writePages(): { folder: string; pagesFolder: string } {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'alderbook-front-'));
  const pagesFolder = path.join(folder, 'renderer');
  mkdirSync(path.join(pagesFolder, 'assets'), { recursive: true });
  mkdirSync(path.join(folder, 'renderer-else'));
  writeFileSync(path.join(pagesFolder, 'index.html'), '<!doctype html><title>pages</title>');
  writeFileSync(path.join(pagesFolder, 'assets', 'main-a1b2c3d4.js'), 'export {};');
  writeFileSync(path.join(pagesFolder, 'assets', 'face-a1b2c3d4.woff2'), 'font');
  writeFileSync(path.join(pagesFolder, 'assets', 'main-a1b2c3d4.css'), 'body{}');
  writeFileSync(path.join(pagesFolder, 'assets', 'leftover.map'), SECRET);
  writeFileSync(path.join(pagesFolder, '.hidden.json'), SECRET);
  for (const name of ['secret.json', 'renderer-else/secret.json']) writeFileSync(path.join(folder, name), SECRET);
  symlinkSync(path.join(folder, 'secret.json'), path.join(pagesFolder, 'link.json'));
  return { folder, pagesFolder };
}

export interface OpenFrontOptions {
  readonly door?: ReturnType<typeof openFakeDoor>;
}

/** Opens it; `close` also removes its files. */
export async function openFront({ door = openFakeDoor() }: OpenFrontOptions = {}) {
  const { folder, pagesFolder } = writePages();
  const faults: unknown[] = [];
  const front = await serveBrowser({ door, pagesFolder, port: 0, reportFault: (fault) => faults.push(fault) });
  const { port } = front;

  function send(about: Omit<RawRequest, 'port'>) {
    return sendRaw({ port, ...about });
  }

  return {
    door,
    faults,
    port,
    address: front.address,
    key: new URL(front.address).searchParams.get('key') ?? '',
    send,
    /** Exchanges the key; answers the header that a browser would send from then on. */
    async enter(): Promise<{ cookie: string }> {
      const answer = await send({ path: new URL(front.address).search === '' ? '/' : `/${new URL(front.address).search}` });
      const [setCookie = ''] = answer.headers['set-cookie'] ?? [];
      return { cookie: setCookie.split(';')[0] ?? '' };
    },
    async close(): Promise<void> {
      await front.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type OpenedFront = Awaited<ReturnType<typeof openFront>>;
