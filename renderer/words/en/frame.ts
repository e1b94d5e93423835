import type { PlaceName } from '../../frame/address.ts';

const places: Readonly<Record<PlaceName, string>> = {
  'fish-in': 'Fish in',
  'brine-bench': 'Brine bench',
  smokehouse: 'Smokehouse',
  'packing-table': 'Packing table',
  'cold-store': 'Cold store',
  'record-shelf': 'Record shelf',
  office: 'Office',
};

export const frame = {
  bookName: 'Alderbook',
  places,
  placesNav: 'Places',
  invented: 'Demonstration: everything here is invented',
  readOnly: 'To look at only: the book’s file or folder is read-only. To write, copy it elsewhere and open the copy.',
  whoIsOnDuty: 'Who is on duty?',
  onDuty: (initials: string) => `On duty: ${initials}`,
  change: 'Change',
  tapYourself: 'Tap who you are. Every entry is kept with your initials.',
  night: 'Night',
  day: 'Day',
  opening: 'Opening the book…',
  loading: 'Fetching…',
  caution:
    'Shows what the record proves against published limits. It does not replace your local code, your process authority or your inspector.',
  line: {
    title: 'The line: what runs and what is due',
    nothing: 'Nothing is running. The line fills when a batch goes into brine.',
    now: 'now',
    turn: 'turn',
    turnDone: 'turned',
    due: 'due',
    overdue: 'overdue',
    more: (count: number) => `and ${count} more`,
    steps: { soak: 'soak', dry: 'dry', smoke: 'smoke', cool: 'cool', freeze: 'freeze' },
    planned: 'planned',
  },
  roles: { hand: 'Kitchen hand', chef: 'Chef', manager: 'Manager' },
} as const;

export const parts = {
  now: 'Now',
  day: 'Day',
  anotherTime: 'another time',
  close: 'Close',
  cancel: 'Cancel',
  save: 'Save',
  remove: 'Remove',
  strike: 'Strike out',
  unit: 'Unit',
  add: 'Add',
  back: 'Back',
  print: 'Print',
  thicknessFault: (mostMm: number) => `Type the thickness in mm, from 1 to ${mostMm}, with a point if it has tenths: 34.5.`,
} as const;
