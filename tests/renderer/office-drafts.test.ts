import { describe, expect, it } from 'vitest';
import type { Paper } from '../../app/contract/requests/papers.ts';
import { EMPTY_PAPER, inOrder, paperInput, standingOn, SUBJECTS_OF, withKind } from '../../renderer/places/office/paper-draft.ts';
import { emptyScheduled, scheduledForm, scheduledInput } from '../../renderer/places/office/scheduled-draft.ts';
import { changesOf, figureLabel, figureText, figureVerdict } from '../../renderer/places/office/set-draft.ts';

const TODAY = '2026-11-25';
const paper = (id: string, more: Partial<Paper>): Paper => ({
  id, kind: 'permission', subject: 'smoking', what: id, number: '', issuedBy: 'x', holder: '', validFrom: null, validUntil: null, fileId: null, species: [], frozen: null, oxygenRate: '',
  fileName: '', addedBy: 'MG', addedAtMs: 0, struck: null, ...more,
});

describe('a paper on the page', () => {
  it('is about what its kind can be about, and keeps its subject where that fits', () => {
    expect(withKind(EMPTY_PAPER, 'film').subject).toBe('film-oxygen');
    expect(withKind({ ...EMPTY_PAPER, subject: 'nitrite' }, 'variance').subject).toBe('nitrite');
    for (const subjects of Object.values(SUBJECTS_OF)) expect(subjects.length).toBeGreaterThan(0);
  });
  it('sends no freezing for a statement that is about something else', () => {
    const form = { ...withKind(EMPTY_PAPER, 'supplier-statement'), frozenAt: '-4', frozenHours: '168' };
    expect(paperInput(form, 'F').frozen).toEqual({ temperature: { text: '-4', unit: 'F' }, hours: '168' });
    expect(paperInput({ ...form, subject: 'parasites-farmed' }, 'F').frozen).toBeNull();
    expect(paperInput(EMPTY_PAPER, 'F')).toMatchObject({ validFrom: null, validUntil: null, fileId: null });
  });
  it('counts on its first and last day, and its end is counted down', () => {
    expect(standingOn(paper('a', { validUntil: TODAY }), TODAY)).toEqual({ state: 'soon', until: TODAY, days: 0 });
    expect(standingOn(paper('a', { validUntil: '2026-11-24' }), TODAY)).toEqual({ state: 'expired', until: '2026-11-24' });
    expect(standingOn(paper('a', { validFrom: TODAY }), TODAY)).toEqual({ state: 'endless' });
    expect(standingOn(paper('a', { validFrom: '2026-11-26' }), TODAY)).toEqual({ state: 'not-yet', from: '2026-11-26' });
    expect(standingOn(paper('a', { validUntil: '2027-11-25' }), TODAY).state).toBe('valid');
    expect(standingOn(paper('a', { validUntil: '2027-11-25', struck: { why: 'x', initials: 'MG', atMs: 0 } }), TODAY).state).toBe('struck');
  });
  it('stands before what ended, and that before what was struck out', () => {
    const papers = [paper('struck', { struck: { why: 'x', initials: 'MG', atMs: 0 } }), paper('endless', {}), paper('ended', { validUntil: '2026-01-01' }), paper('soon', { validUntil: '2026-12-01' })];
    expect(inOrder(papers, TODAY).map(({ id }) => id)).toEqual(['soon', 'endless', 'ended', 'struck']);
  });
});

describe('a scheduled process on the page', () => {
  it('goes out as it came in', () => {
    const draft = {
      name: 'n', paperId: 'p', recipeId: 'r', recipeVersion: 2, ratioAtLeast: '1.5', thicknessMmAtMost: '', soakHoursAtLeast: '8', brineAtMost: { text: '38', unit: 'F' as const }, yieldPercentAtMost: '',
      laboratory: 'L', verifiedOn: '2026-01-01', verifiedUntil: null,
    };
    expect(scheduledInput(scheduledForm({ id: 's', savedBy: 'MG', savedAtMs: 0, ...draft }, 'C'))).toEqual(draft);
  });
  it('chooses the letter where there is only one, and a version that is no number is not dropped', () => {
    expect(emptyScheduled(['one'], 'F').paperId).toBe('one');
    expect(emptyScheduled(['one', 'two'], 'F').paperId).toBe('');
    expect(scheduledInput({ ...emptyScheduled([], 'F'), recipeId: 'r', version: 'two' }).recipeVersion).toBe(0);
    expect(scheduledInput({ ...emptyScheduled([], 'F'), version: '2' }).recipeVersion).toBeNull();
  });
});

describe('a figure of a set of one’s own', () => {
  const core = { field: 'limit', value: '145', unit: 'F', stricter: 'higher' } as const;
  const time = { field: 'target-2-minutes', value: '240', unit: 'min', stricter: 'lower' } as const;
  it('is called stricter, looser or the same as it is typed', () => {
    expect(['150', '144.9', '145.0', '1.4e2', ' ', '145.00001'].map((typed) => figureVerdict(core, typed))).toEqual(['tighter', 'looser', 'same', 'bad', null, 'bad']);
    expect(['200', '300'].map((typed) => figureVerdict(time, typed))).toEqual(['tighter', 'looser']);
  });
  it('is sent with its field, and not where it is as published', () => {
    expect(changesOf('HOT-145-30', [core, time], { limit: ' 150 ', 'target-2-minutes': '240' })).toEqual([{ checkId: 'HOT-145-30', field: 'limit', value: '150', unit: 'F' }]);
  });
  it('has a name and a unit', () => {
    expect([figureLabel('target-2-minutes'), figureLabel('target-1'), figureLabel('percent')]).toEqual(['Time to goal 2', 'Cooling goal 1', 'Salt']);
    expect(figureText({ value: '-4', unit: 'F' })).toBe('\u22124 °F');
  });
});
