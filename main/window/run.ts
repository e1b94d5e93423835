/** The window front from start to end: what must be set before Electron is ready, the window, and leaving. */
import { app, BrowserWindow, dialog, session } from 'electron';
import { EVENT_CHANNEL } from '../../app/contract/names.ts';
import type { Door } from '../backroom/door.ts';
import { registerAppScheme, serveAppScheme } from './app-scheme.ts';
import { setMenu } from './menu.ts';
import { forbidNetwork, keepInPlace } from './navigation.ts';
import { windowOptions } from './options.ts';
import { START_PAGE } from './own-page.ts';
import { refusePermissions } from './permissions.ts';
import { registerRequests } from './register.ts';

export interface WindowFrontOptions {
  /** Called once, after it is known that no other window of ours is open. */
  openDoor(): Door;
  /** The built preload. */
  readonly preloadFile: string;
  /** The folder of the built pages. */
  readonly pagesFolder: string;
  /** Resolves with a sentence when the back room is gone for good. */
  readonly stopped: Promise<string>;
}

/** Closes the back room before the program leaves, so that the book is one file. */
function closeDoorAtQuit(door: Door): void {
  let isClosed = false;
  app.on('will-quit', (event) => {
    if (isClosed) return;
    event.preventDefault();
    void door
      .close()
      .catch((fault: unknown) => console.error('The back room did not close:', fault))
      .finally(() => {
        isClosed = true;
        app.quit();
      });
  });
}

async function openWindow(options: WindowFrontOptions): Promise<void> {
  forbidNetwork(session.defaultSession);
  refusePermissions(session.defaultSession);
  serveAppScheme(options.pagesFolder);
  setMenu();
  const door = options.openDoor();
  closeDoorAtQuit(door);

  const window = new BrowserWindow(windowOptions(options.preloadFile));
  registerRequests(window, door);
  const unsubscribe = door.subscribe((heard) => {
    if (!window.isDestroyed()) window.webContents.send(EVENT_CHANNEL, heard);
  });
  window.once('closed', unsubscribe);
  window.once('ready-to-show', () => window.show());
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  void options.stopped.then((sentence) => {
    dialog.showErrorBox('Alderbook has to close', sentence);
    app.quit();
  });
  await window.loadURL(START_PAGE);
}

/**
 * Starts the window front. Returns before Electron is ready: Electron waits for the program's entry
 * to be read to its end, so nothing in the entry may wait for Electron.
 */
export function startWindowFront(options: WindowFrontOptions): void {
  app.enableSandbox();
  registerAppScheme();
  if (!app.requestSingleInstanceLock()) {
    process.stderr.write('Alderbook is open in a window already; that one was brought to the front.\n');
    app.quit();
    return;
  }
  app.on('web-contents-created', (_event, contents) => keepInPlace(contents));
  app.on('window-all-closed', () => app.quit());
  app
    .whenReady()
    .then(() => openWindow(options))
    .catch((fault: unknown) => {
      console.error(fault);
      dialog.showErrorBox('Alderbook could not be opened', 'The program could not start. Start it again; if it happens again, start it with npm start -- --browser.');
      app.exit(1);
    });
}
