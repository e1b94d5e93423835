/** What papers and scheduled processes show of a batch, as the judge reads them. */
import { describe, expect, it } from 'vitest';
import type { Input } from '../../app/contract/contract.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import type { BookRoom } from '../../main/backroom/room.ts';
import { paperFactsOf, scheduledOf } from '../../main/backroom/services/paper-facts.ts';
import { openForTest } from '../support/book-folder.ts';
import type { TestKitchen } from '../support/test-kitchen.ts';
import { guest, WHITEFISH } from './fish-and-brine.ts';
import { addLetter, addPaper } from './paper-drafts.ts';
import { openSmokeKitchen, soakedBatch } from './smoke-kitchen.ts';

/** The closed book, read by a service. */
async function readAs(kitchen: TestKitchen): Promise<BookRoom> {
  await kitchen.close();
  return { book: openForTest(kitchen.file).reader(), catalogue, clock: kitchen.clock } as unknown as BookRoom;
}
const needBatch = (room: BookRoom, batchId: string) => room.book.shelf('batches').need(batchId);

describe('papers on file', () => {
  it('show what they are about, from midnight of their first day to the end of their last', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    await addPaper(kitchen);
    await addPaper(kitchen, { subject: 'vacuum-packing', number: 'P-13' });
    await addPaper(kitchen, { kind: 'training', subject: 'record-review', number: 'T-1', holder: 'MG', validFrom: null, validUntil: null });
    await addPaper(kitchen, { kind: 'training', subject: 'smoking', number: 'T-2', holder: 'MG' });
    const struck = await addPaper(kitchen, { number: 'P-14' });
    await kitchen.ask('paper.strike', { paperId: struck.id, why: 'Withdrawn' });
    const room = await readAs(kitchen);
    const { onFile } = paperFactsOf(room, needBatch(room, batchId), undefined);
    expect(onFile?.map(({ what, number, holder }) => [what, number, holder])).toEqual([['permission', 'P-12', 'the kitchen'], ['training', 'T-1', 'MG']]);
    // Chicago is six hours behind in winter.
    expect(onFile?.[0]).toMatchObject({ validFromMs: Date.UTC(2026, 0, 1, 6), validUntilMs: Date.UTC(2027, 0, 1, 6) - 1 });
    expect([onFile?.[1]?.validFromMs, onFile?.[1]?.validUntilMs]).toEqual([undefined, undefined]);
  });

  it('of a supplier show something of that supplier’s fish alone, never of a guest’s catch', async () => {
    const { kitchen, batchId } = await openSmokeKitchen();
    const statement: Input<'paper.add'> = {
      kind: 'supplier-statement', subject: 'parasites-frozen', what: 'Frozen', number: 'S-1', issuedBy: 'Grey Rock', holder: ' grey  rock fishery ', validFrom: null, validUntil: null, fileId: null,
      species: [WHITEFISH], frozen: { temperature: { text: '-4', unit: 'F' }, hours: '168' },
    };
    await kitchen.ask('paper.add', statement);
    const caught = await soakedBatch(kitchen, {}, { source: guest('Ada Berg') });
    const other = await soakedBatch(kitchen, {}, { source: { kind: 'supplier', supplierName: 'Blue Point', supplierLot: '1' } });
    const room = await readAs(kitchen);
    const shown = (id: string) => paperFactsOf(room, needBatch(room, id), undefined).onFile;
    expect(shown(batchId)).toMatchObject([{ what: 'frozen-by-supplier', species: [WHITEFISH], frozen: { value: '-4', unit: 'F', hours: '168' } }]);
    expect([shown(caught), shown(other)]).toEqual([[], []]);
  });

  it('that vary a rule show nothing where the batch does not raise it', async () => {
    const { kitchen, batchId } = await openSmokeKitchen({ pack: 'air' });
    for (const subject of ['vacuum-packing', 'custom-processing', 'nitrite', 'limits', 'smoking'] as const) await addLetter(kitchen, 'variance', { subject, number: subject });
    const room = await readAs(kitchen);
    const batch = needBatch(room, batchId);
    expect(paperFactsOf(room, batch, undefined).onFile?.map(({ number }) => number)).toEqual(['smoking']);
    expect(paperFactsOf(room, batch, undefined, 'vacuum').onFile?.map(({ number }) => number)).toEqual(['vacuum-packing', 'smoking']);
  });
});

describe('a batch beside its scheduled process', () => {
  async function judgedBy(more: Partial<Input<'scheduled.save'>['draft']>, letterMore: Parameters<typeof addPaper>[1] = {}) {
    const { kitchen, batchId } = await openSmokeKitchen();
    const letter = await addLetter(kitchen, 'process-letter', letterMore);
    const { scheduled } = await kitchen.ask('scheduled.save', {
      scheduledId: null,
      draft: {
        name: 'Window', paperId: letter.id, recipeId: 'plain-brine', recipeVersion: 1, ratioAtLeast: '1', thicknessMmAtMost: '25', soakHoursAtLeast: '2', brineAtMost: null, yieldPercentAtMost: '70',
        laboratory: 'Laboratory 7', verifiedOn: '2026-06-01', verifiedUntil: '2027-05-31', ...more,
      },
    });
    await kitchen.ask('batch.useScheduled', { batchId, scheduledId: scheduled.id });
    const room = await readAs(kitchen);
    return { process: scheduledOf(room, needBatch(room, batchId)), batch: needBatch(room, batchId), room };
  }

  it('has its own figure beside each limit, and none for what is not recorded', async () => {
    const { process, batch } = await judgedBy({});
    expect(process?.window).toEqual([
      { what: 'recipe', side: 'exactly', limit: `“${batch.card.recipeName}”, version 1`, actual: `“${batch.card.recipeName}”, version 1` },
      { what: 'brine for each part of fish', side: 'at-least', limit: '1', actual: String(batch.card.ratio) },
      { what: 'thickest piece in mm', side: 'at-most', limit: '25', actual: '25' },
      { what: 'hours in the brine', side: 'at-least', limit: '2', actual: '2' },
      { what: 'finished weight in % of the brined', side: 'at-most', limit: '70', actual: undefined },
    ]);
    expect(process).toMatchObject({ letter: { authority: 'Northwater Process Authority', number: 'L-7' }, verifiedFromMs: Date.UTC(2026, 5, 1, 5), verifiedUntilMs: Date.UTC(2027, 5, 1, 5) - 1 });
  });

  it('cuts a figure without an end to the side against the batch', async () => {
    const { process, batch, room } = await judgedBy({ brineAtMost: { text: '3.333', unit: 'C' } });
    expect(process?.window.find(({ what }) => what === 'warmest brine in °C')).toMatchObject({ limit: '3.333' });
    const mass = (grams: number) => ({ text: String(grams), unit: 'g' as const, grams });
    const at = (minutes: number) => ({ soak: [{ ...batch.soak[0], what: 'start' as const, atMs: 0, brineTicks: 30_001 }, { ...batch.soak[1], what: 'end' as const, atMs: minutes * 60_000, brineTicks: 29_000 }] });
    const weights = [{ what: 'brined' as const, mass: mass(3000), atMs: 0, initials: 'CH' }, { what: 'finished' as const, mass: mass(2000), atMs: 0, initials: 'CH' }];
    const changed = { ...batch, ...at(100), weights } as typeof batch;
    const actual = new Map(scheduledOf(room, changed)?.window.map((item) => [item.what, item.actual]));
    expect([...actual.values()].slice(3)).toEqual(['1.666666', '3.333445', '66.666667']);
    const older = { ...changed, weights: [{ what: 'brined' as const, mass: mass(5000), atMs: 0, initials: 'CH' }, ...weights] };
    expect(scheduledOf(room, older)?.window.at(-1)?.actual).toBe('66.666667');
  });

  it('by another recipe or version is outside by name, also where the names are one', async () => {
    const { batch, room } = await judgedBy({});
    const of = (card: Partial<typeof batch.card>) => scheduledOf(room, { ...batch, card: { ...batch.card, ...card } })?.window[0]?.actual;
    expect(of({ recipeVersion: 2 })).toBe(`“${batch.card.recipeName}”, version 2`);
    expect(of({ recipeId: 'another' })).toBe(`“${batch.card.recipeName}”, version 1 of another recipe`);
  });

  it('has no letter where that was not valid on the day the batch was made', async () => {
    expect((await judgedBy({}, { validUntil: '2026-11-24' })).process?.letter).toBeUndefined();
    expect((await judgedBy({}, { validFrom: '2026-11-26' })).process?.letter).toBeUndefined();
    expect((await judgedBy({}, { validUntil: '2026-11-25' })).process?.letter).toBeDefined();
  });
});
