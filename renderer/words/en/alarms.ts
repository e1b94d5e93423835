export const alarms = {
  title: 'Alarms',
  none: 'No alarm.',
  kinds: {
    'piece-too-slow': 'Piece too slow', 'chamber-drifting': 'Chamber drifting', 'probe-silent': 'Probe silent',
    'round-overdue': 'Round overdue', 'cooling-too-slow': 'Cooling too slow',
  },
  seen: 'I have seen it',
  seenLabel: (kind: string, text: string) => `I have seen it: ${kind}. ${text}`,
  seenBy: (initials: string, clock: string) => `Seen by ${initials} at ${clock}.`,
  quiet: (clock: string) => `Quiet until ${clock}, unless it gets worse.`,
  again: 'It goes on.',
  soundOn: 'Let alarms sound here',
  soundOff: 'No sound here',
  onLine: (load: number, count: number) => `Load ${load}: ${count === 1 ? '1 alarm' : `${count} alarms`}`,
} as const;
