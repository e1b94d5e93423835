/** The draft of a paper: what its kind asks for, and whether a paper counts today. */
import type { Paper, PaperDraft, PaperKind, PaperSubject } from '../../../app/contract/requests/papers.ts';
import { daysBetween, readDay } from '../../../app/packs/dates.ts';

export const PAPER_KINDS: readonly PaperKind[] = ['permission', 'variance', 'training', 'supplier-statement', 'process-letter', 'limit-letter', 'film', 'other'];

const PERMITTED: readonly PaperSubject[] = ['smoking', 'curing', 'vacuum-packing', 'custom-processing', 'nitrite', 'other'];
/** What a paper of a kind can be about, the usual one first. */
export const SUBJECTS_OF: Readonly<Record<PaperKind, readonly PaperSubject[]>> = {
  permission: PERMITTED,
  variance: [...PERMITTED, 'limits'],
  training: ['record-review', 'smoking', 'vacuum-packing', 'other'],
  'supplier-statement': ['parasites-frozen', 'parasites-farmed', 'other'],
  'process-letter': ['process'],
  'limit-letter': ['limits'],
  film: ['film-oxygen'],
  other: ['other'],
};

/** A paper as the form holds it; empty days are none. */
export interface PaperForm {
  readonly kind: PaperKind;
  readonly subject: PaperSubject;
  readonly what: string;
  readonly number: string;
  readonly issuedBy: string;
  readonly holder: string;
  readonly validFrom: string;
  readonly validUntil: string;
  readonly file: { readonly fileId: string; readonly fileName: string } | null;
  readonly species: readonly string[];
  readonly frozenAt: string;
  readonly frozenHours: string;
  readonly oxygenRate: string;
}

export const EMPTY_PAPER: PaperForm = {
  kind: 'permission', subject: 'smoking', what: '', number: '', issuedBy: '', holder: '', validFrom: '', validUntil: '', file: null,
  species: [], frozenAt: '', frozenHours: '', oxygenRate: '',
};

/** The same form for another kind of paper, about what that kind is usually about. */
export function withKind(form: PaperForm, kind: PaperKind): PaperForm {
  const subjects = SUBJECTS_OF[kind];
  return { ...form, kind, subject: subjects.includes(form.subject) ? form.subject : (subjects[0] ?? 'other') };
}

/** What `paper.add` takes. */
export function paperInput(form: PaperForm, unit: 'F' | 'C'): PaperDraft {
  const isFrozen = form.kind === 'supplier-statement' && form.subject === 'parasites-frozen';
  return {
    kind: form.kind, subject: form.subject, what: form.what, number: form.number, issuedBy: form.issuedBy, holder: form.holder,
    validFrom: form.validFrom === '' ? null : form.validFrom, validUntil: form.validUntil === '' ? null : form.validUntil, fileId: form.file?.fileId ?? null,
    species: [...form.species], frozen: isFrozen ? { temperature: { text: form.frozenAt, unit }, hours: form.frozenHours } : null, oxygenRate: form.oxygenRate,
  };
}

/** Days before its end at which a paper's end is counted down. */
const SOON_DAYS = 60;

/** How a paper stands on a day, YYYY-MM-DD. */
export type PaperStanding =
  | { readonly state: 'struck' } | { readonly state: 'expired' | 'valid'; readonly until: string } | { readonly state: 'not-yet'; readonly from: string }
  | { readonly state: 'soon'; readonly until: string; readonly days: number } | { readonly state: 'endless' };

export function standingOn(paper: Pick<Paper, 'struck' | 'validFrom' | 'validUntil'>, today: string): PaperStanding {
  const { validFrom, validUntil } = paper;
  if (paper.struck !== null) return { state: 'struck' };
  if (validUntil !== null && validUntil < today) return { state: 'expired', until: validUntil };
  if (validFrom !== null && validFrom > today) return { state: 'not-yet', from: validFrom };
  if (validUntil === null) return { state: 'endless' };
  const [now, end] = [readDay(today), readDay(validUntil)];
  const days = now.ok && end.ok ? daysBetween(now.value, end.value) : SOON_DAYS + 1;
  return days <= SOON_DAYS ? { state: 'soon', until: validUntil, days } : { state: 'valid', until: validUntil };
}

/** Papers that still count first, those that end soonest first among them; then expired ones, then struck ones. */
export function inOrder(papers: readonly Paper[], today: string): Paper[] {
  const rank = (paper: Paper): number => {
    const { state } = standingOn(paper, today);
    return state === 'struck' ? 2 : state === 'expired' ? 1 : 0;
  };
  const end = (paper: Paper): string => paper.validUntil ?? '9999-12-31';
  return papers.toSorted((one, other) => rank(one) - rank(other) || (end(one) < end(other) ? -1 : end(one) > end(other) ? 1 : 0));
}
