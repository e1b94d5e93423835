/** Keeping a scheduled process: the window of a process authority's letter, in figures. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { decimalFrom, compareDecimals } from '../../../app/limits/decimals.ts';
import { readDay } from '../../../app/packs/dates.ts';
import type { Stored } from '../book/stored.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { readTypedTemperature } from './typed-temperature.ts';
import { sayDay } from './when.ts';

type Draft = Parsed<'scheduled.save'>['draft'];
type Scheduled = Stored<'scheduledProcesses'>;

/** The decimals a limit may have, so that a figure cut to six compares with it exactly. */
const LIMIT = /^\d{1,6}(\.\d{1,4})?$/;
const VERIFICATION = ['laboratory', 'verifiedOn', 'verifiedUntil'] as const;

/**
 * Saves a scheduled process, on a process authority's letter on file. Once a batch uses it, only a
 * laboratory's verification that was missing may still be added.
 * @throws Refusal RULE_BLOCKS without such a letter; INVALID_INPUT for a figure or day that can't be; CONFLICT where a batch uses it
 */
export function saveScheduled(room: BookRoom, { scheduledId, draft: typed }: Parsed<'scheduled.save'>): Output<'scheduled.save'> {
  const shelf = room.book.shelf('scheduledProcesses');
  const before = scheduledId === null ? null : shelf.need(scheduledId);
  const draft = readDraft(room, typed);
  if (before !== null) refuseUsed(room, before, draft);
  const scheduled: Scheduled = { id: before?.id ?? room.newId(), ...draft, savedBy: actingPerson(room).initials, savedAtMs: room.clock.nowMs() };
  shelf.put(scheduled);
  const paper = room.book.shelf('papers').need(draft.paperId);
  room.book.record({
    kind: 'scheduled.save', subjectId: scheduled.id, happenedAtMs: scheduled.savedAtMs,
    summary: `${before === null ? 'Added' : 'Changed'} the scheduled process “${scheduled.name}”, by ${paper.issuedBy}, ${paper.number}.`,
    ...(before === null ? {} : { before }), after: scheduled,
  });
  room.changed('papers', [scheduled.id]);
  room.changed('verdict', []);
  return { scheduled };
}

/**
 * The letter of a scheduled process, if it counts.
 * @throws Refusal NOT_FOUND; RULE_BLOCKS for another kind of paper or one struck out
 */
export function needProcessLetter(room: BookRoom, paperId: string): Stored<'papers'> {
  const paper = room.book.shelf('papers').get(paperId);
  if (paper === undefined) blockLetter('No letter of a process authority is on file for this.', 'NOT_FOUND');
  if (paper.kind !== 'process-letter') blockLetter(`“${paper.what}” is not a process authority’s letter on a scheduled process.`);
  if (paper.struck !== null) blockLetter(`“${paper.what}” was struck out (${paper.struck.initials}: ${paper.struck.why}).`);
  return paper;
}

function blockLetter(message: string, code: 'RULE_BLOCKS' | 'NOT_FOUND' = 'RULE_BLOCKS'): never {
  throw new Refusal(code, message, { remedy: 'Put the letter on file first, with its file.', fields: [{ path: ['draft', 'paperId'], message }] });
}

function readDraft(room: BookRoom, draft: Draft): Draft {
  needProcessLetter(room, draft.paperId);
  readRecipe(room, draft);
  for (const key of ['ratioAtLeast', 'thicknessMmAtMost', 'soakHoursAtLeast', 'yieldPercentAtMost'] as const) readLimit(draft[key], key);
  const brineAtMost = draft.brineAtMost === null ? null : { text: readBrine(draft.brineAtMost), unit: draft.brineAtMost.unit };
  const isEmpty = draft.recipeId === null && brineAtMost === null && [draft.ratioAtLeast, draft.thicknessMmAtMost, draft.soakHoursAtLeast, draft.yieldPercentAtMost].every((limit) => limit === '');
  if (isEmpty) refuseInput('The scheduled process has no limit at all.', ['draft', 'recipeId'], 'Type the limits that the letter sets.');
  readVerification(draft);
  return { ...draft, brineAtMost };
}

function readRecipe(room: BookRoom, { recipeId, recipeVersion }: Draft): void {
  if (recipeId === null) {
    if (recipeVersion !== null) refuseInput('A version is given without its recipe.', ['draft', 'recipeId'], 'Choose the recipe.');
    return;
  }
  const recipe = room.book.shelf('recipes').need(recipeId);
  const versions = room.book.shelf('recipeVersions').where('recipeId', recipeId).map(({ recipe: { version } }) => version);
  if (recipeVersion === null || recipeVersion === recipe.version || versions.includes(recipeVersion)) return;
  refuseInput(`“${recipe.name}” has no version ${recipeVersion}.`, ['draft', 'recipeVersion'], `The latest is version ${recipe.version}.`);
}

function readLimit(text: string, key: string): void {
  if (text === '') return;
  if (!LIMIT.test(text)) refuseInput(`“${text}” is not a plain number with at most four decimals.`, ['draft', key], 'Write it like 1.5, or leave it empty where the letter sets no limit.');
  if (compareDecimals(decimalFrom(text), decimalFrom('0')) <= 0) refuseInput(`${text} can’t be right.`, ['draft', key], 'Check the letter, or leave it empty where it sets no limit.');
}

function readBrine(typed: NonNullable<Draft['brineAtMost']>): string {
  const path = ['draft', 'brineAtMost', 'text'];
  const { text, lowTicks, highTicks } = readTypedTemperature(typed, path);
  if (lowTicks !== highTicks) refuseInput(`${text} °${typed.unit} has too many decimals to be compared exactly.`, path, 'Write it with at most three decimals.');
  return text;
}

function readVerification({ laboratory, verifiedOn, verifiedUntil }: Draft): void {
  if (verifiedOn !== null) unwrap(readDay(verifiedOn, 'draft.verifiedOn'));
  if (verifiedUntil !== null) unwrap(readDay(verifiedUntil, 'draft.verifiedUntil'));
  const isGiven = laboratory !== '' || verifiedOn !== null || verifiedUntil !== null;
  if (!isGiven) return;
  if (laboratory === '') refuseInput('Which laboratory verified it is missing.', ['draft', 'laboratory'], 'Type its name and the report’s number.');
  if (verifiedOn === null) refuseInput('The day of the verification is missing.', ['draft', 'verifiedOn'], 'Give the day of the laboratory’s report.');
  if (verifiedUntil === null) refuseInput('Until when the verification counts is missing.', ['draft', 'verifiedUntil'], 'Give the last day, as the letter says.');
  if (verifiedUntil < verifiedOn) refuseInput(`It can’t count until ${sayDay(verifiedUntil)}: the report is of ${sayDay(verifiedOn)}.`, ['draft', 'verifiedUntil'], 'Check both days.');
}

/** What a batch is judged by may not change under it. */
function refuseUsed(room: BookRoom, before: Scheduled, draft: Draft): void {
  const user = room.book.shelf('batches').all().find((batch) => batch.scheduledId === before.id);
  if (user === undefined) return;
  const wasVerified = before.verifiedOn !== null;
  const fixed = (Object.keys(draft) as (keyof Draft)[]).filter((key) => wasVerified || !VERIFICATION.some((one) => one === key));
  if (fixed.every((key) => JSON.stringify(draft[key]) === JSON.stringify(before[key]))) return;
  throw new Refusal('CONFLICT', `Batch ${user.shortName} is judged by “${before.name}”: it can’t be changed under it.`, { remedy: 'Save it as a new scheduled process for the batches to come.' });
}
