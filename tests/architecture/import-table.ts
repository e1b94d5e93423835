/** Who may import whom, as data. The longest prefix that fits decides, for the importer and for what it imports. */

/** `types`: only what vanishes when the program runs. */
export type Leave = 'yes' | 'types' | 'no';

export interface Area {
  /** A folder with a slash at its end, or one file. */
  readonly area: string;
  /** Folders and files of ours; what no prefix fits may not be imported. */
  readonly may: Readonly<Record<string, Leave>>;
  /** Packages, by name and subpath; `node` stands for every module of Node. */
  readonly packages: readonly string[];
}

const SUBJECTS = ['measures', 'brine', 'limits', 'heat', 'probes', 'packs'].map((subject) => `app/${subject}/`);
const PAGE_PACKAGES = ['react', 'react-dom', 'react-dom/client', 'recharts', 'react-aria-components', '@tanstack/react-query', 'bwip-js/browser', 'zod'];

function subjects(leave: Leave): Record<string, Leave> {
  return Object.fromEntries(SUBJECTS.map((subject) => [subject, leave]));
}

/** What both fronts may know of app, and their one door. */
const FRONT_KNOWS: Readonly<Record<string, Leave>> = {
  ...subjects('types'),
  'app/contract/names.ts': 'yes',
  'app/contract/envelope.ts': 'yes',
  'app/contract/bridge-types.ts': 'types',
  'main/backroom/door.ts': 'yes',
};

const BACK_ROOM: Readonly<Record<string, Leave>> = { 'app/': 'yes', 'assets/': 'yes', 'main/backroom/': 'yes' };
const PAGE: Readonly<Record<string, Leave>> = { 'app/': 'yes', 'renderer/': 'yes' };
const PAGE_WITHOUT_ASKING: Readonly<Record<string, Leave>> = { ...PAGE, 'renderer/bridge/': 'no', 'renderer/places/': 'no' };
const PLACES = ['fish-in', 'brine-bench', 'smokehouse', 'packing-table', 'cold-store', 'record-shelf', 'office'];

export const IMPORT_TABLE: readonly Area[] = [
  ...SUBJECTS.map((area) => ({ area, may: subjects('yes'), packages: ['temporal-polyfill'] })),
  { area: 'app/contract/', may: { ...subjects('types'), 'app/contract/': 'yes' }, packages: ['zod'] },
  { area: 'app/contract/names.ts', may: {}, packages: [] },
  { area: 'main/preload/', may: { 'main/preload/': 'yes', 'app/contract/names.ts': 'yes' }, packages: ['electron'] },
  { area: 'main/window/', may: { ...FRONT_KNOWS, 'main/window/': 'yes' }, packages: ['electron', 'node'] },
  {
    area: 'main/browser/',
    may: { ...FRONT_KNOWS, 'main/browser/': 'yes', 'main/window/content-policy.ts': 'yes', 'main/window/page-files.ts': 'yes' },
    packages: ['node', 'zod'],
  },
  { area: 'main/backroom/', may: BACK_ROOM, packages: ['node', 'zod', 'ml-levenberg-marquardt'] },
  { area: 'main/backroom/hands/workbook.ts', may: BACK_ROOM, packages: ['read-excel-file/node'] },
  { area: 'main/backroom/services/export-workbook.ts', may: BACK_ROOM, packages: ['write-excel-file/node'] },
  { area: 'main/backroom/feeds/', may: BACK_ROOM, packages: ['node', 'jsmodbus', 'mqtt'] },
  { area: 'main/backroom/book/', may: BACK_ROOM, packages: ['node', 'zod', 'better-sqlite3'] },
  // The two files that a thread begins with look at the version of Node before anything else is loaded.
  { area: 'main/backroom/worker.ts', may: { ...BACK_ROOM, 'main/start/node-version.ts': 'yes' }, packages: ['node'] },
  { area: 'main/backroom/hands/hand.ts', may: { ...BACK_ROOM, 'main/start/node-version.ts': 'yes' }, packages: ['node'] },
  {
    area: 'main/start/',
    may: { ...subjects('types'), 'app/contract/': 'yes', 'main/start/': 'yes', 'main/window/': 'yes', 'main/browser/': 'yes', 'main/backroom/door.ts': 'yes' },
    packages: ['node', 'zod'],
  },
  {
    area: 'main/index.ts',
    may: {
      'app/contract/names.ts': 'yes',
      'app/contract/envelope.ts': 'yes',
      'main/start/': 'yes',
      'main/window/': 'yes',
      'main/browser/': 'yes',
      'main/backroom/door.ts': 'yes',
    },
    packages: ['electron', 'node'],
  },
  { area: 'renderer/', may: PAGE, packages: PAGE_PACKAGES },
  // Typing and importing readings serves every place with a record; it asks, but knows no place.
  { area: 'renderer/readings/', may: { ...PAGE, 'renderer/places/': 'no' }, packages: PAGE_PACKAGES },
  ...['parts', 'chart', 'words'].map((part) => ({ area: `renderer/${part}/`, may: PAGE_WITHOUT_ASKING, packages: PAGE_PACKAGES })),
  ...PLACES.map((place) => ({
    area: `renderer/places/${place}/`,
    may: { ...PAGE, 'renderer/places/': 'no' as const, [`renderer/places/${place}/`]: 'yes' as const },
    packages: PAGE_PACKAGES,
  })),
  { area: 'electron.config.ts', may: {}, packages: ['electron-vite', '@vitejs/plugin-react'] },
];

function fits(prefix: string, file: string): boolean {
  return prefix.endsWith('/') ? file.startsWith(prefix) : file === prefix;
}

/** The row for a file; undefined for what the table leaves free (the tests) or doesn't know. */
export function areaOf(file: string): Area | undefined {
  return IMPORT_TABLE.filter((row) => fits(row.area, file)).toSorted((a, b) => b.area.length - a.area.length)[0];
}

/** What a row says about a file of ours. */
export function leaveFor(row: Area, target: string): Leave {
  const prefix = Object.keys(row.may).filter((each) => fits(each, target)).toSorted((a, b) => b.length - a.length)[0];
  return prefix === undefined ? 'no' : (row.may[prefix] ?? 'no');
}

/** Whether a row lets a package in. */
export function letsIn(row: Area, specifier: string): boolean {
  if (specifier.startsWith('node:')) return row.packages.includes('node');
  return row.packages.includes(specifier);
}
