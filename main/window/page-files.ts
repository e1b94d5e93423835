/** The built pages as files: which file an address means, and what kind it is. Used by both fronts. */
import { readFile, realpath } from 'node:fs/promises';
import path from 'node:path';

const CONTENT_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.ttf': 'font/ttf',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
};

export interface PageFile {
  readonly bytes: Buffer<ArrayBuffer>;
  readonly contentType: string;
  /** True when the name carries a digest of the content, so that a browser may keep it for ever. */
  readonly isUnchanging: boolean;
}

/**
 * The file inside `folder` that the path of an address names, `/` being `index.html`; null when the
 * path is malformed, leaves the folder, or hides a part of itself (dot files, backslashes, NUL).
 */
export function locatePageFile(folder: string, urlPath: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(urlPath);
  } catch {
    return null;
  }
  if (!decoded.startsWith('/') || decoded.includes('\0') || decoded.includes('\\') || decoded.includes('%')) return null;
  const parts = decoded.slice(1).split('/');
  const isRoot = parts.length === 1 && parts[0] === '';
  if (!isRoot && parts.some((part) => part === '' || part.startsWith('.') || part.includes(':'))) return null;
  const root = path.resolve(folder);
  const file = path.resolve(root, isRoot ? 'index.html' : parts.join(path.sep));
  return file.startsWith(root + path.sep) ? file : null;
}

/**
 * Reads the file that the path of an address names; null when there is none, when it is of a kind
 * that pages don't use, or when a link leads out of the folder.
 */
export async function readPageFile(folder: string, urlPath: string): Promise<PageFile | null> {
  const file = locatePageFile(folder, urlPath);
  if (file === null) return null;
  const contentType = CONTENT_TYPES[path.extname(file).toLowerCase()];
  if (contentType === undefined) return null;
  try {
    const [root, real] = await Promise.all([realpath(folder), realpath(file)]);
    if (!real.startsWith(root + path.sep)) return null;
    return { bytes: await readFile(real), contentType, isUnchanging: /^\/assets\/.+-[\w-]{8,}\.\w+$/.test(urlPath) };
  } catch {
    return null;
  }
}
