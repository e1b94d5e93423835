/** Where the books lie when no `--book` names one: our folder among the user's own data. */
import path from 'node:path';

export interface Computer {
  readonly platform: NodeJS.Platform;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly homeFolder: string;
}

/** The folder where programs of this kind of computer keep a user's data. */
function userDataFolder({ platform, environment, homeFolder }: Computer): string {
  if (platform === 'win32') return environment['APPDATA'] ?? path.join(homeFolder, 'AppData', 'Roaming');
  if (platform === 'darwin') return path.join(homeFolder, 'Library', 'Application Support');
  const given = environment['XDG_DATA_HOME'];
  return given !== undefined && path.isAbsolute(given) ? given : path.join(homeFolder, '.local', 'share');
}

/** Our folder for books; it may not exist yet. */
export function dataFolder(computer: Computer): string {
  return path.join(userDataFolder(computer), 'alderbook');
}
