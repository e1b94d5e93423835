/** How the window is made. Its security settings are all here; those left out keep Electron's careful defaults. */
import type { BrowserWindowConstructorOptions } from 'electron';

/** The options of the one window, with the preload at `preloadFile`. */
export function windowOptions(preloadFile: string): BrowserWindowConstructorOptions {
  return {
    title: 'Alderbook',
    width: 1280,
    height: 860,
    minWidth: 480,
    minHeight: 480,
    show: false,
    autoHideMenuBar: true,
    webPreferences: {
      preload: preloadFile,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      spellcheck: false,
    },
  };
}
