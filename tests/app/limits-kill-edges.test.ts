/** Ceilings, coolings, sets and papers on their very edges: just the longest step, just at a mark, the first of several. */
import { describe, expect, it } from 'vitest';
import { judgePlacesBelow, type CeilingRule } from '../../app/limits/ceiling.ts';
import { figuresOf, strictnessOf, withFigures } from '../../app/limits/figures.ts';
import { aloneContext, holdsNamed, judgeCheck } from '../../app/limits/judge.ts';
import type { CaseFacts, JudgeCase, MeasuredPoint, SaltSample } from '../../app/limits/judge-case.ts';
import { contextOf, judgeSet } from '../../app/limits/judge-set.ts';
import { findCheck, findSet, sourceOf, type Source } from '../../app/limits/limit-set.ts';
import { nextCoolingReading, nextFreezerReading, nextHoldReading } from '../../app/limits/next-reading.ts';
import { isValidOver, standingOf, type FiledRecord } from '../../app/limits/on-file.ts';
import { bookWith, loosenCheck, ownSetFrom, setFromLetter, tightenCheck } from '../../app/limits/own-set.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, judgeAlone, minutes, needCheck, needSet, pieceF, readingsF, running, ticksF } from '../support/judge-cases.ts';
import { limitBook, steady, type Points } from '../support/judged-log.ts';

const words = minuteWords('F');
const CLOSED = { open: false };
const at = (day: string) => Date.parse(`${day}T12:00:00Z`);

describe('a ceiling', () => {
  const judged = batchOf([], { maxGapMs: minutes(10) });
  const rule = (more: Partial<CeilingRule> = {}): CeilingRule => ({ limitTicks: ticksF(40), text: '40 °F or below', gap: { kind: 'ceiling' }, span: CLOSED, isOpen: false, ...more });
  const place = (points: Points, role: MeasuredPoint['role'] = 'chamber', name = 'A'): MeasuredPoint => ({ name, role, readings: readingsF(points) });
  const verdict = (points: readonly MeasuredPoint[], more: Partial<CeilingRule> = {}) => judgePlacesBelow(points, rule(more), judged, words).verdict;
  it('has a gap only beyond the longest step, at the marks too', () => {
    const marked = (inMinute: number, outMinute: number) => verdict([place([[0, 39], [10, 39]])], { span: { inMs: minutes(inMinute), outMs: minutes(outMinute), open: false } });
    expect([marked(-10, 20), marked(-10.1, 20), marked(-10, 20.1)]).toEqual(['meets', 'not-proven', 'not-proven']);
    expect([verdict([place([[0, 39], [10.1, 39]])]), verdict([place([[0, 39]])]), verdict([place([])])]).toEqual(['not-proven', 'not-proven', 'not-proven']);
  });
  it('ends at the out mark for a place, and not for a piece', () => {
    const span = { outMs: minutes(10), open: false };
    const points: Points = [[0, 39], [10, 39], [15, 60]];
    expect([verdict([place(points)], { span }), verdict([place(points, 'piece')], { span })]).toEqual(['meets', 'misses']);
  });
  it('is broken by its time even where nothing was measured', () => {
    const timed = (outMinute: number) => judgeAlone('COLD-90-20', batchOf([], { process: 'cold', records: { process: { inMs: 0, outMs: minutes(outMinute), open: false }, soak: CLOSED, freezer: CLOSED, store: CLOSED } }));
    expect([timed(1200).verdict, timed(1201).verdict]).toEqual(['not-proven', 'misses']);
    expect(timed(1201).reason).toBe('The record: 1201 min from in to out, over the 1200 min allowed.');
  });
  it('names the hotter of two places, the earlier of two peaks, and equals by name', () => {
    const reason = (...points: MeasuredPoint[]) => judgePlacesBelow(points, rule(), judged, words).reason;
    expect(reason(place([[0, 41]]), place([[0, 42], [5, 42]], 'chamber', 'B'))).toBe('B read 42 °F at minute 0, not 40 °F or below.');
    expect(reason(place([[0, 41]], 'chamber', 'B'), place([[0, 41]]))).toContain('A read 41 °F');
  });
  it('of chilled fish shows what came before', () => {
    const found = judgePlacesBelow([place([[0, 60], [5, 45], [10, 40], [20, 39]])], rule({ chilledTicks: ticksF(40) }), judged, words);
    expect(found.verdict).toBe('meets');
    expect(found.spans.map(({ fromMs, toMs, counts, why }) => [fromMs / 60_000, toMs / 60_000, counts, why])).toEqual([[0, 10, false, 'before it was chilled; shown, not judged'], [10, 20, true, '40 °F or below']]);
  });
});

describe('a cooling', () => {
  const two = holdsNamed(limitBook, ['HOT-150-30-HOME', 'HOT-145-30']);
  const warm: Points = [[0, 140], [5, 130], ...steady(146, 60, 90, 10), [100, 130], [150, 69], [225, 50], [300, 40]];
  const judged = (holds: typeof two, points = warm) => judgeCheck(needCheck('COOL-FC'), batchOf([pieceF('A', points)]), { ...aloneContext(limitBook, words), holds }).verdict;
  it('starts after the hold that was completed, whichever of several it is', () => {
    expect(two).toHaveLength(2);
    expect([judged(two), judged(two.toReversed()), judged([]), judged(two.slice(0, 1))]).toEqual(['meets', 'meets', 'not-proven', 'not-proven']);
  });
  it('says that nothing was measured, or read', () => {
    expect([judgeAlone('COOL-FC', batchOf([])).reason, judgeAlone('COOL-FC', batchOf([pieceF('A', [])])).reason]).toEqual(['Nothing was measured for this.', 'There is no reading of the cooling.']);
  });
  it('leaves out pieces that were not read where the thickest was, and none where it was not', () => {
    const cooled: Points = [[0, 140], [5, 130], [60, 69], [130, 50], [200, 40]];
    const places = (...pieces: [string, Points, number | undefined][]) => judgeAlone('COOL-FC', batchOf(pieces.map(([name, points, thicknessMm]) => pieceF(name, points, { thicknessMm })), { endOfSmokingMs: 0 })).pieces.map(({ name, verdict }) => `${name} ${verdict}`);
    expect(places(['A', cooled, 30], ['B', cooled, 20], ['C', [[-5, 141]], 20])).toEqual(['A meets', 'B meets', 'C does-not-apply']);
    expect(places(['A', cooled, 20], ['B', cooled, 20], ['C', [[-5, 141]], 30])).toEqual(['A meets', 'B meets', 'C not-proven']);
    expect(places(['A', cooled, 30], ['B', [[-5, 141]], undefined])).toEqual(['A meets', 'B not-proven']);
  });
  it('over two hours between readings proves nothing, just two hours does', () => {
    const slow = (step: number): Points => [[0, 136], [1, 134], [60, 69], [60 + step, 42], [230, 40]];
    expect([judged([], slow(120)), judged([], slow(121))]).toEqual(['meets', 'not-proven']);
    expect(judgeAlone('COOL-FC', batchOf([pieceF('A', slow(121))])).reason).toBe('Piece A: no reading for 121 min from minute 60; over 2 hours between readings prove nothing.');
  });
});

describe('the next reading', () => {
  const context = aloneContext(limitBook, words);
  const hold = needCheck('HOT-145-30');
  const cooling = needCheck('COOL-FC');
  const freezing = needCheck('PARA-FREEZE-A');
  if (hold.kind !== 'hold' || cooling.kind !== 'descent' || freezing.kind !== 'freeze') throw new Error('no such checks');
  it('is late only once the longest step is over', () => {
    const piece = pieceF('A', [[90, 146], [100, 146], [106, 146]]);
    const said = (now: number) => nextHoldReading(hold, piece, running(batchOf([piece])), context, minutes(now))?.text;
    expect(said(118)).toContain('read by minute 116');
    expect(said(118.1)).toContain('not read for 12.1 min');
  });
  it('of a cooling is none once the record is closed, and within 15 min of the first after it came out', () => {
    const said = (points: Points, open = true) => {
      const piece = pieceF('A', [...steady(146, 0, 30, 10), ...points]);
      const batch = batchOf([piece], { endOfSmokingMs: minutes(40) });
      return nextCoolingReading(cooling, piece, open ? running(batch) : batch, context, minutes(50));
    };
    expect(said([[41, 140]], false)).toBeUndefined();
    expect([said([[40, 130]])?.dueMs, said([[41, 130]])?.dueMs, said([[41, 130], [50, 120]])?.dueMs]).toEqual([minutes(55), minutes(56), minutes(150)]);
    expect(said([[40, 140]])?.text).toContain('still above 135 °F. Read it again within 15 min');
  });
  it('of a freezer is within a day also of a long freezing', () => {
    const readings = readingsF(steady(-6, 0, 3 * 1200, 1200));
    const freezer: MeasuredPoint = { name: 'F', role: 'store', readings };
    const batch = batchOf([freezer], { records: { process: CLOSED, soak: CLOSED, store: CLOSED, freezer: { open: true } } });
    expect(nextFreezerReading({ ...freezing, minutes: 14 * 1440 }, freezer, batch, context, 0)?.dueMs).toBe(minutes(3600 + 1440));
  });
});

describe('a set', () => {
  it('asks its pieces, and whether together, of its chamber alone', () => {
    const asks = (setId: string, process: JudgeCase['process']) => {
      const { probesAsked, together, holds } = contextOf(needSet(setId), batchOf([], { process }), limitBook, words);
      return [probesAsked, together, holds.map(({ id }) => id)];
    };
    expect(asks('lodge-default', 'hot')).toEqual([3, true, ['HOT-145-30']]);
    expect(asks('lodge-default', 'cold')).toEqual([1, false, []]);
    expect(asks('home', 'hot').slice(0, 2)).toEqual([1, false]);
  });
  it('of which a check is unknown is a mistake of ours', () => {
    const set = { ...needSet('home'), answers: [{ question: 'chamber' as const, checks: ['NONE-SUCH'] }] };
    expect(() => judgeSet(set, batchOf([]), limitBook, { words, paper: false })).toThrow('no check NONE-SUCH');
    expect(() => sourceOf({ ...needCheck('HOT-145-30'), sources: [] })).toThrow('HOT-145-30 has no source');
    expect([findCheck(limitBook, 'NONE-SUCH'), findSet(limitBook, 'none')]).toEqual([undefined, undefined]);
  });
  it('that is found by its id is the first of that id', () => {
    const check = needCheck('HOT-145-30');
    const set = needSet('home');
    const book = { checks: [check, { ...check, title: 'second' }], sets: [set, { ...set, name: 'second' }] };
    expect([findCheck(book, check.id), findSet(book, set.id)]).toEqual([check, set]);
  });
});

describe('salt', () => {
  const salted = (checkId: string, ...samples: SaltSample[]) => judgeAlone(checkId, batchOf([], { pack: checkId.includes('AIR') ? 'air' : 'vacuum', store: 'refrigerated', species: 'Oncorhynchus nerka', facts: { nitriteUsed: true }, saltSamples: samples }));
  const sample = (saltPercent: string, moisturePercent: string, more: Partial<SaltSample> = {}): SaltSample => ({ saltPercent, moisturePercent, ...more });
  it('within the method’s error meets so, and just at the limit without it', () => {
    expect([salted('SALT-9-CA', sample('9.5', '50', { errorPercent: '0.5' })).verdict, salted('SALT-9-CA', sample('9.5', '50', { errorPercent: '0.51' })).verdict]).toEqual(['meets', 'meets-within-error']);
    expect([salted('WPS-ROP-3.5', sample('2.2', '53', { errorPercent: '0.1' })).verdict, salted('WPS-ROP-3.5', sample('2.03', '55.97', { errorPercent: '3' })).verdict]).toEqual(['meets', 'meets-within-error']);
  });
  it('names the worst sample, the first of equals, by its number', () => {
    expect(salted('WPS-ROP-3.5', sample('3', '50'), sample('1', '50'), sample('1', '60')).reason).toMatch(/^Sample 2 of 3: water-phase salt 1\.9607 %/);
    expect(salted('WPS-ROP-3.5', sample('1', '50')).reason).toMatch(/^Water-phase salt 1\.9607 %/);
  });
  it('without a nitrite result is not proven in a set only where nitrite was used', () => {
    const of = (facts: CaseFacts) => judgeSet(needSet('lodge-default'), batchOf([], { pack: 'vacuum', store: 'refrigerated', species: 'Oncorhynchus nerka', facts }), limitBook, { words, paper: false }).units.find((unit) => unit.checks[0]?.checkId === 'NIT-200')?.verdict;
    expect([of({ nitriteUsed: true }), of({})]).toEqual(['not-proven', 'does-not-apply']);
  });
});

describe('papers', () => {
  const paper = (more: Partial<FiledRecord> = {}): FiledRecord => ({ what: 'permission', number: '1', holder: 'Lodge', onFileMs: 0, ...more });
  it('count from their first to their last moment', () => {
    const span = { fromMs: 10, toMs: 20 };
    expect([[10, 20], [11, 20], [10, 19], [9, 21]].map(([validFromMs, validUntilMs]) => isValidOver(paper({ validFromMs, validUntilMs }), span))).toEqual([true, false, false, true]);
    expect([[5, 9], [5, 10], [5, 19], [15, 20]].map(([validFromMs, validUntilMs]) => /expired on [^,.]+(, before)?|valid only from/.exec(standingOf([paper({ validFromMs, validUntilMs })], 'permission', span, words).text)?.[0].slice(-12)))
      .toEqual([' 1 Jan 1970', '1970, before', '1970, before', 'd only from'].map((text, index) => (index === 0 ? ' 1 Jan 1970'.padStart(12, 'n') : index === 3 ? 'id only from' : text)));
  });
  it('put on file at the very end are not late', () => {
    const text = (onFileMs: number) => standingOf([paper({ validFromMs: 0, onFileMs })], 'permission', { fromMs: 10, toMs: 20 }, words).text;
    expect([text(20), text(21)]).toEqual(['Permission 1 (Lodge), without an end.', 'Permission 1 (Lodge), without an end, put on file on 1 Jan 1970.']);
  });
  it('of one end and beginning go by their number', () => {
    const numbers = (...list: string[]) => standingOf(list.map((number) => paper({ number })), 'permission', { fromMs: 10, toMs: 20 }, words).record?.number;
    expect([numbers('1', '2', '3'), numbers('3', '2', '1'), numbers('2', '1', '3')]).toEqual(['1', '1', '1']);
  });
  it('of a supplier must name the fish, and what was done to it', () => {
    const records = { process: { inMs: at('2026-06-01'), open: false }, soak: CLOSED, freezer: CLOSED, store: CLOSED };
    const said = (more: Partial<FiledRecord>, species?: string) => judgeAlone('PARA-SUPPLIER-FROZEN', batchOf([], { process: 'cold', species, records, facts: { onFile: [paper({ what: 'manager-initials' }), paper({ what: 'frozen-by-supplier', number: 'S-1', species: ['Oncorhynchus nerka'], ...more })] } }));
    const frozen = { value: '-4', unit: 'F', hours: '168' } as const;
    expect(said({ frozen }, 'Oncorhynchus nerka').verdict).toBe('meets');
    expect([said({ frozen }).reason, said({ frozen }, ' ').reason]).toEqual(Array.from({ length: 2 }, () => 'The species is not recorded, so the supplier’s statement can’t be matched to it.'));
    expect(said({ frozen }, 'Salmo salar').reason).toBe('The supplier’s statement S-1 does not name Salmo salar.');
    expect(said({}, 'Oncorhynchus nerka').reason).toContain('names no temperature and time of freezing');
    expect(said({ frozen: { ...frozen, hours: '167' } }, 'Oncorhynchus nerka').reason).toBe('The supplier’s statement S-1 says −4 °F for 167 h; −4 °F or below for 168 h or −31 °F or below for 15 h asked.');
  });
  it('of a manager count by the first initials', () => {
    const initials = (...list: FiledRecord[]) => judgeAlone('REC-INITIALS-MI', batchOf([], { facts: { onFile: list }, records: { process: CLOSED, soak: CLOSED, freezer: CLOSED, store: { open: false, outMs: 50 } } })).verdict;
    const by = (onFileMs: number) => paper({ what: 'manager-initials', onFileMs });
    expect([initials(by(50)), initials(by(51)), initials(by(90), by(40)), initials(paper({ onFileMs: 1 }), by(60)), initials(paper())]).toEqual(['meets', 'misses', 'meets', 'misses', 'not-proven']);
  });
});

describe('a kitchen’s own set', () => {
  const STAMP = { id: 'tamarack', name: 'Tamarack plan', version: '1', effectiveFrom: '2026-05-01', note: '' };
  const OURS: Source = { publisher: 'Tamarack Narrows Lodge', title: 'Kitchen plan', section: 'smoking', year: 2026, mark: 'common practice' };
  const LETTER = { authority: 'Northwater Process Authority', number: 'L-7', writtenOn: '2026-04-20', fileId: 'file-1' };
  const started = ownSetFrom(needSet('lodge-default'), limitBook, STAMP);
  if (!started.ok) throw new Error(started.problem.message);
  const set = started.value;
  const variance = { onFile: { what: 'variance', number: 'V-2', holder: 'Lodge', onFileMs: 0 } as FiledRecord, nowMs: 1, words };
  it('has no check that it doesn’t name, whichever way it is changed', () => {
    const changes = [{ checkId: 'RAW-45-AK', figures: [{ field: 'limit', value: '30' }] }];
    const refused = [tightenCheck(set, limitBook, 'RAW-45-AK', [{ field: 'limit', value: '30' }], OURS), loosenCheck(set, limitBook, 'RAW-45-AK', [{ field: 'limit', value: '50' }], OURS, variance), setFromLetter(needSet('lodge-default'), limitBook, STAMP, LETTER, changes)];
    expect(refused.map((one) => (one.ok ? 'taken' : one.problem.message))).toEqual(Array.from({ length: 3 }, () => 'Tamarack plan has no check RAW-45-AK.'));
  });
  it('is changed by nothing that changes no figure', () => {
    const same = loosenCheck(set, limitBook, 'HOT-145-30', [{ field: 'limit', value: '145.0' }], OURS, variance);
    expect(same.ok ? 'taken' : same.problem.message).toBe('HOT-145-30 has these figures already.');
  });
  it('asks for its variance once, beside its chamber', () => {
    const once = loosenCheck(set, limitBook, 'HOT-145-30', [{ field: 'minutes', value: '29' }], OURS, variance);
    if (!once.ok) throw new Error(once.problem.message);
    const twice = loosenCheck(once.value, limitBook, 'RAW-38', [{ field: 'limit', value: '39' }], OURS, variance);
    if (!twice.ok) throw new Error(twice.problem.message);
    expect(twice.value.ownChecks.map(({ id }) => id).sort()).toEqual(['HOT-145-30.TAMARACK', 'RAW-38.TAMARACK', 'VARIANCE.TAMARACK']);
    expect(twice.value.answers.filter(({ checks }) => checks?.includes('VARIANCE.TAMARACK') === true)).toEqual([{ question: 'chamber', checks: ['VARIANCE.TAMARACK'], besides: true }]);
    expect(() => bookWith(limitBook, [twice.value, twice.value])).toThrow(/^HOT-145-30\.TAMARACK stands twice/);
  });
  it('by a letter names what the letter lacks first, and has its year where it has a day', () => {
    const letter = (more: Partial<typeof LETTER>) => setFromLetter(needSet('lodge-default'), limitBook, STAMP, { ...LETTER, ...more }, [{ checkId: 'HOT-145-30', figures: [{ field: 'minutes', value: '31' }] }]);
    const lacks = letter({ number: '', fileId: '' });
    expect(lacks.ok ? undefined : lacks.problem).toMatchObject({ message: 'The letter needs its authority, number, day and file.' });
    expect(lacks.ok ? '' : JSON.stringify(lacks.problem)).toContain('letter.number');
    expect([letter({}), letter({ writtenOn: 'spring' })].map((one) => (one.ok ? one.value.ownChecks[0]?.sources[0]?.year : 'refused'))).toEqual([2026, null]);
  });
  it('has figures by name, in their own unit where none is given', () => {
    const celsius = needCheck('PARA-EU-20-24');
    const changed = withFigures(celsius, [{ field: 'limit', value: '-21' }]);
    expect(changed.ok ? figuresOf(changed.value)[0] : undefined).toMatchObject({ value: '-21', unit: 'C' });
    const refused = withFigures(celsius, [{ field: 'colour', value: '1' }]);
    const none = withFigures(needCheck('COOL-MI'), [{ field: 'limit', value: '1' }]);
    expect([refused, none].map((one) => (one.ok ? '' : JSON.stringify(one.problem)))).toEqual([expect.stringContaining('It has limit, minutes.'), expect.stringContaining('It has none.')]);
    const [limit] = figuresOf(celsius);
    if (limit === undefined) throw new Error('no limit');
    expect([strictnessOf(limit, { field: 'limit', value: '-4', unit: 'F' }), strictnessOf(limit, { field: 'limit', value: '-4.1', unit: 'F' }), strictnessOf(limit, { field: 'limit', value: '-20' })]).toEqual(['same', 'tighter', 'same']);
  });
});
