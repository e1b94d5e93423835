/**
 * Stands in for the module `electron` of the main process, so that the built program runs unmodified in
 * Node with a Chromium of Playwright. It has what the program uses and nothing more: an import of
 * anything else fails. It can't show what only Electron does: the sandbox, the isolation of worlds, the
 * real scheme, its own Node, printers, menus, the lock between processes.
 */
import { noteCall, takeOpenDialogAnswer } from './record.ts';
import { needReady, stage } from './stage.ts';
import type { ChannelHandler, RequestFilter, SchemeHandler } from './stage.ts';

export { app } from './app.ts';
export { BrowserWindow } from './window.ts';

export const protocol = {
  registerSchemesAsPrivileged(schemes: readonly { scheme: string; privileges: object }[]): void {
    if (stage.isReady) throw new Error('protocol.registerSchemesAsPrivileged should be called before app is ready');
    for (const { scheme, privileges } of schemes) {
      stage.privilegedSchemes.add(scheme);
      noteCall('protocol.registerSchemesAsPrivileged', scheme, privileges);
    }
  },
  handle(scheme: string, handler: SchemeHandler): void {
    needReady('protocol.handle');
    if (!stage.privilegedSchemes.has(scheme)) throw new Error(`The scheme ${scheme} was not registered as standard and secure.`);
    if (stage.schemeHandlers.has(`${scheme}:`)) throw new Error(`The scheme ${scheme} is already registered`);
    stage.schemeHandlers.set(`${scheme}:`, handler);
  },
};

export const ipcMain = {
  handle(channel: string, handler: ChannelHandler): void {
    if (stage.channelHandlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
    stage.channelHandlers.set(channel, handler);
  },
};

export const dialog = {
  async showOpenDialog(_window: unknown, options: unknown): Promise<{ canceled: boolean; filePaths: readonly string[] }> {
    noteCall('dialog.showOpenDialog', options);
    const filePaths = takeOpenDialogAnswer();
    return { canceled: filePaths.length === 0, filePaths };
  },
  showErrorBox(title: string, content: string): void {
    noteCall('dialog.showErrorBox', title, content);
  },
};

export const Menu = {
  buildFromTemplate(template: readonly unknown[]): readonly unknown[] {
    return template;
  },
  setApplicationMenu(menu: unknown): void {
    noteCall('Menu.setApplicationMenu', menu);
  },
};

let blockers = 0;
export const powerSaveBlocker = {
  start(kind: string): number {
    needReady('powerSaveBlocker.start');
    noteCall('powerSaveBlocker.start', kind);
    return (blockers += 1);
  },
  stop(id: number): boolean {
    noteCall('powerSaveBlocker.stop', id);
    return true;
  },
};

export const session = {
  get defaultSession() {
    needReady('session');
    return {
      webRequest: {
        onBeforeRequest(filter: RequestFilter): void {
          stage.requestFilter = filter;
        },
      },
      setPermissionRequestHandler: (handler: unknown) => noteCall('session.setPermissionRequestHandler', handler),
      setPermissionCheckHandler: (handler: unknown) => noteCall('session.setPermissionCheckHandler', handler),
      setDevicePermissionHandler: (handler: unknown) => noteCall('session.setDevicePermissionHandler', handler),
    };
  },
};
