/**
 * Composition root of the desktop program: the order of its start and the place of every other built
 * file. Only here is `import.meta.url` right: what is imported later lies in another folder once built.
 */
import './start/node-version.ts';
import os from 'node:os';
import { fileURLToPath } from 'node:url';
import { openDoor } from './backroom/door.ts';
import type { Door } from './backroom/door.ts';
import { dataFolder } from './start/data-folder.ts';
import { readProgramOptions } from './start/program-options.ts';
import { terminalLog } from './start/terminal-log.ts';
import { readVersion } from './start/version.ts';

const WORKER_FILE = new URL('./backroom.js', import.meta.url);
const HAND_FILE = new URL('./hand.js', import.meta.url);
const PRELOAD_FILE = fileURLToPath(new URL('../preload/index.cjs', import.meta.url));
const PAGES_FOLDER = fileURLToPath(new URL('../renderer', import.meta.url));
const PACKAGE_FILE = new URL('../../package.json', import.meta.url);

const options = readProgramOptions(process.argv);
const stopped = Promise.withResolvers<string>();

function openBackRoom(): Door {
  return openDoor({
    workerFile: WORKER_FILE,
    handFile: HAND_FILE,
    bookFile: options.bookFile,
    dataFolder: dataFolder({ platform: process.platform, environment: process.env, homeFolder: os.homedir() }),
    demo: options.wantsDemo,
    version: readVersion(PACKAGE_FILE),
    runsFeeds: true,
    log: terminalLog(process.env['ALDERBOOK_LOG'] === '1'),
    onStopped: stopped.resolve,
  });
}

// Each front is loaded only when chosen: the browser front must never import Electron.
if (options.front === 'browser') {
  const { runBrowserFront } = await import('./browser/run.ts');
  process.exit(
    await runBrowserFront({
      door: openBackRoom(),
      pagesFolder: PAGES_FOLDER,
      port: options.port,
      opensBrowser: options.opensBrowser,
      stopped: stopped.promise,
    }),
  );
} else {
  const { startWindowFront } = await import('./window/run.ts');
  startWindowFront({ openDoor: openBackRoom, preloadFile: PRELOAD_FILE, pagesFolder: PAGES_FOLDER, stopped: stopped.promise });
}
