import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { dataFolder } from '../../main/start/data-folder.ts';
import { isNodeNewEnough } from '../../main/start/node-version.ts';
import { readProgramOptions, writeProgramOptions } from '../../main/start/program-options.ts';
import { readStartOptions } from '../../main/start/start-options.ts';

describe('what is typed after npm start --', () => {
  test('is nothing for most people', () => {
    expect(readStartOptions([], '/people/a')).toEqual({ ok: true, value: { browser: false, port: 0, bookFile: null, demo: false, open: true } });
  });

  test('may be every option at once, with values after a space or an equals sign', () => {
    const expected = { ok: true, value: { browser: true, port: 8123, bookFile: '/people/a/x.alderbook', demo: true, open: false } };
    expect(readStartOptions(['--browser', '--port', '8123', '--book', 'x.alderbook', '--demo', '--no-open'], '/people/a')).toEqual(expected);
    expect(readStartOptions(['--no-open', '--demo', '--book=x.alderbook', '--port=8123', '--browser'], '/people/a')).toEqual(expected);
  });

  test('names a book from the folder it was typed in', () => {
    for (const [typed, file] of [['/data/x.alderbook', '/data/x.alderbook'], ['../x.alderbook', '/people/x.alderbook']] as const) {
      expect(readStartOptions(['--book', typed], '/people/a')).toMatchObject({ ok: true, value: { bookFile: file } });
    }
  });

  const refused: readonly [string[], string][] = [
    [['--brwoser'], 'There is no option --brwoser.'],
    [['-b'], 'There is no option -b.'],
    [['kitchen.alderbook'], '“kitchen.alderbook” is not an option of npm start.'],
    [['--port'], '--port needs a value after it.'],
    [['--port', '--browser'], '--port needs a value after it.'],
    [['--book'], '--book needs a value after it.'],
    [['--book='], '--book needs the name of a file.'],
    [['--demo=yes'], '--demo takes no value.'],
    [['--port', 'x'], '--port needs a whole number from 0 to 65535, and “x” is none.'],
    [['--port', '65536'], '--port needs a whole number from 0 to 65535, and “65536” is none.'],
    [['--port=-1'], '--port needs a whole number from 0 to 65535, and “-1” is none.'],
    [['--port', '80.5'], '--port needs a whole number from 0 to 65535, and “80.5” is none.'],
    [['--port', ''], '--port needs a whole number from 0 to 65535, and “” is none.'],
  ];
  for (const [typed, message] of refused) {
    test(`is refused as ${JSON.stringify(typed)} with a sentence and a way to mend it`, () => {
      const outcome = readStartOptions(typed, '/people/a');
      expect(outcome).toMatchObject({ ok: false, problem: { message, remedy: expect.stringMatching(/\.$/) } });
    });
  }
});

describe('what the program is told', () => {
  test('comes back as it was written', () => {
    const all = [
      { front: 'browser', bookFile: '/a b/x=y.alderbook', port: 8123, wantsDemo: true, opensBrowser: true },
      { front: 'browser', bookFile: null, port: 0, wantsDemo: false, opensBrowser: false },
      { front: 'window', bookFile: '/x.alderbook', port: 0, wantsDemo: true, opensBrowser: false },
    ] as const;
    for (const options of all) expect(readProgramOptions(['node', 'index.js', ...writeProgramOptions(options)])).toEqual(options);
  });

  test('is read from among the arguments of Electron and the system', () => {
    const values = ['/x/electron', '--no-sandbox', '--user-data-dir=/tmp/u', '/x/app', '--book=/k.alderbook', '-psn_0_123'];
    expect(readProgramOptions(values)).toEqual({ front: 'window', bookFile: '/k.alderbook', port: 0, wantsDemo: false, opensBrowser: false });
  });
});

describe('the folder of the books', () => {
  const rows: readonly [NodeJS.Platform, Record<string, string>, string][] = [
    ['linux', {}, '/people/a/.local/share/alderbook'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/alderbook'],
    ['linux', { XDG_DATA_HOME: 'not/absolute' }, '/people/a/.local/share/alderbook'],
    ['darwin', { XDG_DATA_HOME: '/data' }, '/people/a/Library/Application Support/alderbook'],
    ['win32', { APPDATA: '/roaming' }, '/roaming/alderbook'],
    ['win32', {}, '/people/a/AppData/Roaming/alderbook'],
  ];
  for (const [platform, environment, folder] of rows) {
    test(`on ${platform} with ${JSON.stringify(environment)} is ${folder}`, () => {
      expect(dataFolder({ platform, environment, homeFolder: '/people/a' })).toBe(path.normalize(folder));
    });
  }
});

test('Node is new enough from 22.18 on', () => {
  const rows: readonly [string, boolean][] = [
    ['20.20.2', false], ['22.17.9', false], ['22.18.0', true], ['22.23.3', true], ['24.0.0', true], ['24.21.0', true], ['9.99.99', false], ['100.0.0', true],
  ];
  for (const [version, isEnough] of rows) expect(isNodeNewEnough(version), version).toBe(isEnough);
});
