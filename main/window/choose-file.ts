/** Lets a person choose a file; its bytes go into the book's inbox, its path never reaches the page. */
import path from 'node:path';
import { dialog } from 'electron';
import type { BrowserWindow } from 'electron';
import type { ChosenFile } from '../../app/contract/bridge-types.ts';
import type { Reply } from '../../app/contract/envelope.ts';
import type { Door } from '../backroom/door.ts';
import { fail } from './failures.ts';
import { readChosen } from './read-chosen.ts';
import { readWantedEndings } from './wanted-endings.ts';

/** Asks for one file and takes it in; null when nothing was chosen. */
export async function chooseFile(window: BrowserWindow, door: Pick<Door, 'takeFile'>, input: unknown): Promise<Reply<ChosenFile>> {
  const endings = readWantedEndings(input);
  if (endings === null) return fail('INVALID_INPUT', 'To choose a file, give nothing, or the wanted endings as accept.');
  const { canceled, filePaths } = await dialog.showOpenDialog(window, {
    properties: ['openFile'],
    filters: [
      ...(endings.length === 0 ? [] : [{ name: endings.map((ending) => `.${ending}`).join(', '), extensions: endings }]),
      { name: 'All files', extensions: ['*'] },
    ],
  });
  const [chosen] = filePaths;
  if (canceled || chosen === undefined) return { ok: true, value: null };
  const fileName = path.basename(chosen);
  const bytes = await readChosen(chosen, fileName);
  if (!bytes.ok) return bytes;
  const taken = await door.takeFile(fileName, bytes.value);
  return taken.ok ? { ok: true, value: { fileId: taken.value.fileId, fileName } } : taken;
}
