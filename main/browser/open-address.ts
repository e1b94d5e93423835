/** Opens an address in this computer's own browser. */
import { spawn } from 'node:child_process';

const OPENERS: Readonly<Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
};

/** Tries to; that there is no browser is nothing to complain of, since the address was printed. */
export function openAddress(address: string): void {
  const [command, ...values] = OPENERS[process.platform] ?? ['xdg-open'];
  const opener = spawn(command, [...values, address], { stdio: 'ignore', detached: true });
  opener.on('error', () => undefined);
  opener.unref();
}
