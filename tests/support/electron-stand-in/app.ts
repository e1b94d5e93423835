/** `app`: its start, its events and its end, in Electron's order. */
import { EventEmitter } from 'node:events';
import { preventable } from './contents.ts';
import { noteCall } from './record.ts';
import { stage } from './stage.ts';

class StandInApp extends EventEmitter {
  #isQuitting = false;
  readonly #ready = Promise.withResolvers<void>();
  readonly #ended = Promise.withResolvers<number>();
  /** Set by the module of the windows, which knows them. */
  closeWindows: () => Promise<void> = async () => undefined;

  /** The exit code, once the program has ended. */
  get ended(): Promise<number> {
    return this.#ended.promise;
  }

  /** What Electron does once the entry has been read to its end. */
  becomeReady(): void {
    stage.isReady = true;
    this.emit('ready');
    this.#ready.resolve();
  }

  whenReady(): Promise<void> {
    return this.#ready.promise;
  }

  enableSandbox(): void {
    if (stage.isReady) throw new Error('app.enableSandbox() can only be called before the app is ready.');
    noteCall('app.enableSandbox');
  }

  requestSingleInstanceLock(): boolean {
    noteCall('app.requestSingleInstanceLock');
    return true;
  }

  quit(): void {
    void this.#quit();
  }

  exit(code = 0): void {
    this.emit('quit', {}, code);
    this.#ended.resolve(code);
  }

  async #quit(): Promise<void> {
    if (this.#isQuitting) return;
    this.#isQuitting = true;
    const leaving = preventable({});
    this.emit('before-quit', leaving);
    if (!leaving.defaultPrevented) {
      await this.closeWindows();
      const last = preventable({});
      this.emit('will-quit', last);
      if (!last.defaultPrevented) return this.exit(0);
    }
    this.#isQuitting = false;
  }
}

export const app = new StandInApp();
