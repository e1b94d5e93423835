/** The Chromium that comes inside the npm package `@sparticuz/chromium` (Linux x64 only), unpacked once under `out`. */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '..', '..');
const PACKAGE_FOLDER = path.join(ROOT, 'node_modules', '@sparticuz', 'chromium');

export interface CarriedBrowser {
  readonly version: string;
  readonly folder: string;
  /** Exists once `unpackCarriedBrowser` has run. */
  readonly executablePath: string;
  /** For the browser's process only: its libraries would confuse other programs. */
  readonly environment: Record<string, string>;
}

/** Where the browser is or will be. Throws a sentence where the package has none for this computer. */
export function carriedBrowser(): CarriedBrowser {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error('No Chromium was found for the tests. Install Chrome or Chromium, or name one in CHROMIUM_PATH.');
  }
  const { version } = JSON.parse(readFileSync(path.join(PACKAGE_FOLDER, 'package.json'), 'utf8')) as { version: string };
  const folder = path.join(ROOT, 'out', `browser-${version}`);
  const inherited = Object.entries(process.env).filter((entry): entry is [string, string] => entry[1] !== undefined);
  return {
    version,
    folder,
    executablePath: path.join(folder, 'chromium'),
    environment: {
      ...Object.fromEntries(inherited),
      LD_LIBRARY_PATH: path.join(folder, 'al2023', 'lib'),
      FONTCONFIG_FILE: path.join(folder, 'fonts.conf'),
    },
  };
}

/** Its own list of fonts names the default temporary folder literally; with it every text here would be 0 wide. */
function fontsSetting(folder: string): string {
  return `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>${folder}/fonts</dir><cachedir>${folder}/fonts-cache</cachedir></fontconfig>
`;
}

/**
 * Unpacks it into a folder of its own and then moves that into place, so that it is there whole or not
 * at all: the package itself looks only for a name, and takes half a file left by a killed run for the whole.
 */
export async function unpackCarriedBrowser(): Promise<void> {
  const { folder, executablePath } = carriedBrowser();
  if (existsSync(executablePath)) return;
  const part = `${folder}.part-${process.pid}`;
  mkdirSync(part, { recursive: true });
  const temporaryBefore = process.env['TMPDIR'];
  // The package unpacks into the temporary folder, under fixed names.
  process.env['TMPDIR'] = part;
  try {
    const { default: carried, inflate } = await import('@sparticuz/chromium');
    await carried.executablePath();
    await inflate(path.join(PACKAGE_FOLDER, 'bin', 'al2023.tar.br'));
  } finally {
    if (temporaryBefore === undefined) delete process.env['TMPDIR'];
    else process.env['TMPDIR'] = temporaryBefore;
  }
  writeFileSync(path.join(part, 'fonts.conf'), fontsSetting(folder));
  try {
    renameSync(part, folder);
  } catch (fault) {
    // Another run may have been quicker; then its folder is as good as ours.
    rmSync(part, { recursive: true, force: true });
    if (!existsSync(executablePath)) throw fault;
  }
}
