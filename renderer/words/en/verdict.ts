import type { Verdict } from '../../../app/contract/requests/verdict.ts';

const names: Readonly<Record<Verdict, string>> = {
  misses: 'does not meet',
  'not-proven': 'not proven',
  'no-figure': 'this set gives no figure',
  open: 'so far',
  'meets-within-error': 'meets, within the thermometer’s error',
  meets: 'meets',
  'does-not-apply': 'does not apply',
};

export const verdict = {
  names,
  evidence: 'Evidence',
  needed: 'What is needed',
  source: 'Source',
  mark: {
    read: 'text read',
    'second-hand': 'second-hand text, check your own paper',
    'from memory': 'from memory, check your own paper',
    computed: 'computed',
    'common practice': 'common practice',
  },
  confirmedBy: (initials: string, document: string, day: string) => `Confirmed by ${initials} on ${day}: ${document}`,
  notConfirmed: 'Not confirmed by this kitchen yet',
  otherSets: 'By other sets, for information only',
  notJudged: (list: string) => `Not judged here: ${list}.`,
  unconfirmed: 'These deciding figures rest on memory or a second-hand text. Confirm them in the office against your own paper:',
} as const;
