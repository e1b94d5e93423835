import { describe, expect, it } from 'vitest';
import { openForTest } from '../support/book-folder.ts';
import { openTestKitchen } from '../support/test-kitchen.ts';
import { COHO } from './fish-and-brine.ts';
import { addLetter, addPaper, paperInput } from './paper-drafts.ts';
import { refusal } from './smoke-kitchen.ts';

describe('a paper put on file', () => {
  it('is kept with its file, who added it and when, and the record says so', async () => {
    const kitchen = await openTestKitchen();
    const fileId = await kitchen.takeFile('permit.txt', 'Rainy County: smoking permit P-12');
    const paper = await addPaper(kitchen, { fileId });
    expect(paper).toMatchObject({ what: 'Smoking permit', fileId, fileName: 'permit.txt', addedBy: 'MG', addedAtMs: kitchen.clock.nowMs(), struck: null });
    expect((await kitchen.ask('paper.list', {})).papers).toEqual([paper]);
    expect(kitchen.announced().map(({ subject }) => subject)).toEqual(expect.arrayContaining(['papers', 'verdict']));
    await kitchen.ask('paper.strike', { paperId: paper.id, why: 'Withdrawn' });
    await kitchen.close();
    const book = openForTest(kitchen.file).reader();
    expect(book.entriesAbout([paper.id])).toMatchObject([
      { kind: 'paper.add', person: 'MG', summary: 'Put on file: permission “Smoking permit”, P-12, valid until 31 Dec 2026.' },
      { kind: 'paper.strike', person: 'MG', summary: 'Struck out: permission “Smoking permit”, P-12.', why: 'Withdrawn' },
    ]);
  });

  it('keeps a trained person by the initials of the book, and what only another kind has is dropped', async () => {
    const kitchen = await openTestKitchen();
    const paper = await addPaper(kitchen, { kind: 'training', subject: 'record-review', number: 'T-1', holder: 'ch', species: [COHO], oxygenRate: '9' });
    expect(paper).toMatchObject({ holder: 'CH', species: [], frozen: null, oxygenRate: '' });
  });

  it('keeps what a supplier states of freezing', async () => {
    const kitchen = await openTestKitchen();
    const paper = await addPaper(kitchen, {
      kind: 'supplier-statement', subject: 'parasites-frozen', holder: 'Grey Rock Fishery', species: [COHO, COHO], frozen: { temperature: { text: '\u22124', unit: 'F' }, hours: '168' },
    });
    expect(paper).toMatchObject({ species: [COHO], frozen: { temperature: { text: '-4', unit: 'F' }, hours: '168' } });
  });

  const statement: Parameters<typeof paperInput>[0] = { kind: 'supplier-statement', subject: 'parasites-frozen', holder: 'Grey Rock', species: [COHO] };
  const wrong: [string, Parameters<typeof paperInput>[0], (string | number)[], RegExp][] = [
    ['a last day before the first', { validUntil: '2025-12-31' }, ['validUntil'], /until 31 Dec 2025: it is valid only from 1 Jan 2026/],
    ['a day that isn’t there', { validFrom: '2026-02-30' }, ['validFrom'], /no day 2026-02-30/],
    ['a subject its kind is never about', { subject: 'film-oxygen' }, ['subject'], /not about that/],
    ['a letter without a number', { kind: 'limit-letter', subject: 'limits', number: '' }, ['number'], /number of the letter/],
    ['a letter without its file', { kind: 'variance' }, ['fileId'], /letter itself is missing/],
    ['a file that the book hasn’t', { fileId: 'nowhere' }, ['fileId'], /not in the book/],
    ['training of nobody', { kind: 'training', subject: 'record-review' }, ['holder'], /names a person/],
    ['training of a stranger', { kind: 'training', subject: 'record-review', holder: 'ZZ' }, ['holder'], /initials ZZ/],
    ['a statement of no supplier', { ...statement, holder: '' }, ['holder'], /names the supplier/],
    ['a statement on no species', { ...statement, species: [] }, ['species'], /no species/],
    ['a statement on a species that isn’t there', { ...statement, species: ['Piscis fictus'] }, ['species', 0], /Piscis fictus/],
    ['a statement of freezing without its figures', statement, ['frozen'], /no temperature and time/],
    ['a statement of freezing for no time', { ...statement, frozen: { temperature: { text: '-4', unit: 'F' }, hours: '0' } }, ['frozen', 'hours'], /0 can’t be right/],
    ['a statement of freezing with a word', { ...statement, frozen: { temperature: { text: 'cold', unit: 'F' }, hours: '9' } }, ['frozen', 'temperature', 'text'], /not a temperature/],
    ['a film without a figure', { kind: 'film', subject: 'film-oxygen' }, ['oxygenRate'], /empty/],
    ['a film whose figure is none', { kind: 'film', subject: 'film-oxygen', oxygenRate: '1e4' }, ['oxygenRate'], /not a plain number/],
    ['a film without a number', { kind: 'film', subject: 'film-oxygen', number: '', oxygenRate: '10000' }, ['number'], /number of the film/],
  ];
  it.each(wrong)('is refused with a sentence: %s', async (_what, more, path, message) => {
    const kitchen = await openTestKitchen();
    const failure = await refusal(kitchen.reply('paper.add', paperInput(more)));
    expect(failure.message).toMatch(message);
    expect(failure.fields?.[0]?.path).toEqual(path);
    expect(failure.remedy).toBeTruthy();
    expect((await kitchen.ask('paper.list', {})).papers).toEqual([]);
  });

  it('is refused a second time under the same number, until the first is struck out', async () => {
    const kitchen = await openTestKitchen();
    const first = await addPaper(kitchen);
    expect((await refusal(kitchen.reply('paper.add', paperInput()))).message).toMatch(/P-12 of Rainy County is on file already/);
    await kitchen.ask('paper.strike', { paperId: first.id, why: 'Typed wrongly' });
    expect((await addPaper(kitchen)).id).not.toBe(first.id);
  });

  it('is a manager’s', async () => {
    const kitchen = await openTestKitchen();
    expect(await refusal(kitchen.reply('paper.add', paperInput(), 'CH'))).toMatchObject({ code: 'NOT_ALLOWED' });
  });
});

describe('striking a paper out', () => {
  it('keeps the paper with why, who and when, once', async () => {
    const kitchen = await openTestKitchen();
    const letter = await addLetter(kitchen, 'limit-letter');
    kitchen.clock.advance(60_000);
    const { paper } = await kitchen.ask('paper.strike', { paperId: letter.id, why: 'Withdrawn by its author' });
    expect(paper).toEqual({ ...letter, struck: { why: 'Withdrawn by its author', initials: 'MG', atMs: kitchen.clock.nowMs() } });
    expect((await kitchen.ask('paper.list', {})).papers).toEqual([paper]);
    expect(await refusal(kitchen.reply('paper.strike', { paperId: letter.id, why: 'Again' }))).toMatchObject({ code: 'CONFLICT' });
  });

  it('wants a reason, and a paper that is there', async () => {
    const kitchen = await openTestKitchen();
    const paper = await addPaper(kitchen);
    expect(await refusal(kitchen.reply('paper.strike', { paperId: paper.id, why: ' ' }))).toMatchObject({ code: 'INVALID_INPUT', fields: [{ path: ['why'] }] });
    expect(await refusal(kitchen.reply('paper.strike', { paperId: 'none', why: 'x' }))).toMatchObject({ code: 'NOT_FOUND' });
  });
});

describe('the file of a paper', () => {
  it('is given out byte for byte, with what its first bytes say it is', async () => {
    const kitchen = await openTestKitchen();
    const files: [string, Uint8Array, string][] = [
      ['letter.txt', new TextEncoder().encode('Größe: 62,8 °C'), 'text/plain'],
      ['scan.pdf', Uint8Array.from([...new TextEncoder().encode('%PDF-1.7\n'), 0, 255, 128]), 'application/pdf'],
      ['photo.png', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1]), 'image/png'],
      ['photo.txt', Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 7]), 'image/jpeg'],
      ['page.html', Uint8Array.from([0x3c, 0x80, 0x3e]), 'application/octet-stream'],
    ];
    for (const [name, bytes, mediaType] of files) {
      const paper = await addPaper(kitchen, { number: name, fileId: await kitchen.takeFile(name, bytes) });
      const given = await kitchen.ask('paper.file', { paperId: paper.id }, 'HA');
      expect(given).toMatchObject({ fileName: name, mediaType });
      expect(new Uint8Array(Buffer.from(given.base64, 'base64'))).toEqual(new Uint8Array(bytes));
    }
  });

  it('is still there when the paper is struck out, and one that never was is refused with a sentence', async () => {
    const kitchen = await openTestKitchen();
    const letter = await addLetter(kitchen, 'process-letter');
    await kitchen.ask('paper.strike', { paperId: letter.id, why: 'Replaced' });
    expect((await kitchen.ask('paper.file', { paperId: letter.id })).fileName).toBe('letter.txt');
    const bare = await addPaper(kitchen);
    expect(await refusal(kitchen.reply('paper.file', { paperId: bare.id }))).toMatchObject({ code: 'NOT_FOUND', message: expect.stringContaining('No file was put on file with “Smoking permit”') });
    expect(await refusal(kitchen.reply('paper.file', { paperId: 'nowhere' }))).toMatchObject({ code: 'NOT_FOUND' });
  });
});
