/** `BrowserWindow`, of which the program opens one. */
import { EventEmitter } from 'node:events';
import { app } from './app.ts';
import { StandInContents } from './contents.ts';
import { noteCall } from './record.ts';
import { needReady } from './stage.ts';

interface WindowOptions {
  readonly webPreferences: Readonly<Record<string, unknown>> & { readonly preload: string };
}

/** Settings that the program must never have; Electron itself would only warn, or say nothing. */
function refuseUnsafe(preferences: Readonly<Record<string, unknown>>): void {
  if (preferences['contextIsolation'] !== true) throw new Error('A window must isolate its preload.');
  if (preferences['sandbox'] !== true) throw new Error('A window must be sandboxed.');
  if (preferences['nodeIntegration'] !== false) throw new Error('A page must not have Node.');
}

const windows: BrowserWindow[] = [];

/** The windows that are open. */
export function openWindows(): readonly BrowserWindow[] {
  return windows;
}

export class BrowserWindow extends EventEmitter {
  readonly webContents: StandInContents;
  #isDestroyed = false;

  constructor(options: WindowOptions) {
    super();
    needReady('BrowserWindow');
    refuseUnsafe(options.webPreferences);
    noteCall('BrowserWindow', options);
    this.webContents = new StandInContents(options.webPreferences.preload);
    windows.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }

  async loadURL(address: string): Promise<void> {
    const page = await this.webContents.open(address);
    page.once('close', () => this.#close());
    this.emit('ready-to-show');
  }

  show(): void {
    noteCall('window.show');
  }

  focus(): void {
    noteCall('window.focus');
  }

  isMinimized(): boolean {
    return false;
  }

  isDestroyed(): boolean {
    return this.#isDestroyed;
  }

  /** As when a person closes it. */
  async close(): Promise<void> {
    await this.webContents.page?.close();
    this.#close();
  }

  #close(): void {
    if (this.#isDestroyed) return;
    this.#isDestroyed = true;
    windows.splice(windows.indexOf(this), 1);
    this.emit('closed');
    if (windows.length === 0) app.emit('window-all-closed');
  }
}

app.closeWindows = async () => {
  // Closing takes a window off the list.
  await Promise.all(windows.map((window) => window.close()));
};
