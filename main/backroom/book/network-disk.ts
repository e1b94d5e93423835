/** Network drives: their locks can't be trusted, so a book there could be written by two programs at once. */
import { statfsSync } from 'node:fs';
import { basename } from 'node:path';
import { Refusal } from '../refusal.ts';

/** File system numbers of Linux, from its header `magic.h` (from memory); elsewhere they mean nothing and match nothing. */
const NETWORK_DISKS: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0x517b, 'SMB'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB'],
]);

/** The kind of network drive a file system number stands for; undefined for a disk of the computer. */
export function networkDiskName(fileSystemType: number): string | undefined {
  return NETWORK_DISKS.get(fileSystemType >>> 0);
}

/** Refuses a book on a network drive with FILE_UNREADABLE. */
export function refuseNetworkDisk(file: string): void {
  if (process.platform !== 'linux') return;
  const kind = networkDiskName(statfsSync(file).type);
  if (kind === undefined) return;
  throw new Refusal('FILE_UNREADABLE', `${basename(file)} lies on a network drive (${kind}), where a book can be damaged.`, {
    remedy: 'Keep the book on this computer’s own disk, and copy backups to the network drive.',
  });
}
