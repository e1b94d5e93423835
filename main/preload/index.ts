/** The only bridge into the window: `window.alderbook`, with `request` and `subscribe`. */
import { contextBridge, ipcRenderer } from 'electron';
import { makeSurface } from './surface.ts';

contextBridge.exposeInMainWorld('alderbook', makeSurface(ipcRenderer));
