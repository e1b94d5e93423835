/** What the built program is told on its command line by `npm start`. */
import path from 'node:path';

export interface ProgramOptions {
  readonly front: 'window' | 'browser';
  /** The book named by the person; null means the one in the data folder. */
  readonly bookFile: string | null;
  /** 0 takes any free port. */
  readonly port: number;
  /** Opens the demonstration kitchen, making its book where there is none. */
  readonly wantsDemo: boolean;
  /** Opens the address in this computer's browser. */
  readonly opensBrowser: boolean;
}

/**
 * Reads the options from all arguments of the process. Others are left alone, because Electron's
 * own and the system's stand among them.
 */
export function readProgramOptions(values: readonly string[]): ProgramOptions {
  function valueOf(name: string): string | null {
    return values.find((value) => value.startsWith(`--${name}=`))?.slice(name.length + 3) ?? null;
  }
  const bookFile = valueOf('book');
  return {
    front: valueOf('front') === 'browser' ? 'browser' : 'window',
    bookFile: bookFile === null ? null : path.resolve(bookFile),
    port: Number(valueOf('port') ?? 0),
    wantsDemo: values.includes('--demo'),
    opensBrowser: values.includes('--open'),
  };
}

/** The same options as arguments. */
export function writeProgramOptions(options: ProgramOptions): string[] {
  return [
    `--front=${options.front}`,
    ...(options.front === 'browser' ? [`--port=${options.port}`] : []),
    ...(options.bookFile === null ? [] : [`--book=${options.bookFile}`]),
    ...(options.wantsDemo ? ['--demo'] : []),
    ...(options.opensBrowser ? ['--open'] : []),
  ];
}
