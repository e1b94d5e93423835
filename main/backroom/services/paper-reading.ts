/** Reads a paper as typed: what each kind must say, with a sentence for what is missing. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { PaperKind, PaperSubject } from '../../../app/contract/requests/papers.ts';
import { compareDecimals, decimalFrom, isDecimal } from '../../../app/limits/decimals.ts';
import { readDay } from '../../../app/packs/dates.ts';
import { unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';
import { sameInitials } from './office.ts';
import { readTypedTemperature } from './typed-temperature.ts';
import { sayDay } from './when.ts';

type Draft = Parsed<'paper.add'>;

const PERMITTED: readonly PaperSubject[] = ['smoking', 'curing', 'vacuum-packing', 'custom-processing', 'nitrite', 'other'];
/** What a paper of each kind may be about; `other` takes anything. */
const SUBJECTS: Readonly<Record<Exclude<PaperKind, 'other'>, readonly PaperSubject[]>> = {
  permission: PERMITTED,
  variance: [...PERMITTED, 'limits'],
  training: ['record-review', 'smoking', 'vacuum-packing', 'other'],
  'supplier-statement': ['parasites-farmed', 'parasites-frozen', 'other'],
  'process-letter': ['process'],
  'limit-letter': ['limits'],
  film: ['film-oxygen'],
};
/** Kinds that others rest on, by number and by file. */
const LETTERS: readonly PaperKind[] = ['variance', 'process-letter', 'limit-letter'];

/**
 * Checks a paper against its kind, and drops what its kind doesn't have.
 * @throws Refusal INVALID_INPUT for one field
 */
export function readPaper(room: BookRoom, draft: Draft): Draft {
  refuseDays(draft);
  if (draft.kind !== 'other' && !SUBJECTS[draft.kind].includes(draft.subject)) refuseInput('A paper of this kind is not about that.', ['subject'], 'Choose another subject, or another kind.');
  if (LETTERS.includes(draft.kind)) {
    if (draft.number === '') refuseInput('The number of the letter is missing.', ['number'], 'Type the number or the date that it names itself by.');
    if (draft.fileId === null) refuseInput('The letter itself is missing.', ['fileId'], 'Choose its file: a scan or a photograph.');
  }
  const isFrozen = draft.kind === 'supplier-statement' && draft.subject === 'parasites-frozen';
  return {
    ...draft,
    holder: draft.kind === 'training' ? readTrained(room, draft.holder) : draft.kind === 'supplier-statement' ? readSupplier(draft.holder) : draft.holder,
    species: draft.kind === 'supplier-statement' ? readSpecies(room, draft) : [],
    frozen: isFrozen ? readFrozen(draft.frozen) : null,
    oxygenRate: draft.kind === 'film' ? readFilm(draft) : '',
  };
}

function refuseDays({ validFrom, validUntil }: Draft): void {
  if (validFrom !== null) unwrap(readDay(validFrom, 'validFrom'));
  if (validUntil !== null) unwrap(readDay(validUntil, 'validUntil'));
  if (validFrom === null || validUntil === null || validUntil >= validFrom) return;
  refuseInput(`It can’t be valid until ${sayDay(validUntil)}: it is valid only from ${sayDay(validFrom)}.`, ['validUntil'], 'Check both days.');
}

/** The initials as the book has them, so that a review by that person finds the certificate. */
function readTrained(room: BookRoom, holder: string): string {
  if (holder === '') refuseInput('A training certificate names a person.', ['holder'], 'Type the initials of the person it is for.');
  const person = room.book.shelf('people').all().find((one) => sameInitials(one.initials, holder));
  return person?.initials ?? refuseInput(`Nobody here has the initials ${holder}.`, ['holder'], 'Add the person first, or correct the initials.');
}

function readSupplier(holder: string): string {
  return holder === '' ? refuseInput('A supplier’s statement names the supplier.', ['holder'], 'Type the supplier’s name as on the fish lots.') : holder;
}

/** A statement on parasites is on species that it names. */
function readSpecies(room: BookRoom, { species, subject }: Draft): string[] {
  const unknown = species.findIndex((name) => !room.catalogue.species.some((one) => one.id === name));
  if (unknown >= 0) refuseInput(`There is no species “${species[unknown]}” here.`, ['species', unknown], 'Choose from the list of species.');
  if (species.length === 0 && subject !== 'other') refuseInput('The statement names no species.', ['species'], 'Choose the species it names.');
  return [...new Set(species)];
}

function readFrozen(frozen: Draft['frozen']): NonNullable<Draft['frozen']> {
  if (frozen === null) refuseInput('The statement of freezing names no temperature and time.', ['frozen'], 'Type how cold it was kept, and for how many hours.');
  const { text } = readTypedTemperature(frozen.temperature, ['frozen', 'temperature', 'text']);
  return { temperature: { text, unit: frozen.temperature.unit }, hours: readPositive(frozen.hours, ['frozen', 'hours'], 'Type the hours as a number, such as 168.') };
}

function readFilm({ number, oxygenRate }: Draft): string {
  if (number === '') refuseInput('The number of the film is missing.', ['number'], 'Type it as on the roll.');
  return readPositive(oxygenRate, ['oxygenRate'], 'Type what it lets through, in cc/m² a day at 24 °C and 1 atm, such as 10000.');
}

function readPositive(typed: string, path: readonly string[], remedy: string): string {
  if (typed === '') refuseInput('The figure is empty.', path, remedy);
  if (!/^\d+(\.\d+)?$/.test(typed) || !isDecimal(typed)) refuseInput(`“${typed}” is not a plain number.`, path, remedy);
  if (compareDecimals(decimalFrom(typed), decimalFrom('0')) <= 0) refuseInput(`${typed} can’t be right.`, path, remedy);
  return typed;
}
