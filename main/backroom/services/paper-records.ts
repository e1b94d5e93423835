/** A paper as the judge reads it: what it shows, whom it names, and from when until when it is valid. */
import type { FiledKind, FiledRecord } from '../../../app/limits/on-file.ts';
import { addDays, dayText, readDay } from '../../../app/packs/dates.ts';
import { instantOf } from '../../../app/measures/zone.ts';
import type { Stored } from '../book/stored.ts';
import { unwrap } from '../refusal.ts';
import type { OpenBook } from '../room.ts';

type StoredPaper = Stored<'papers'>;

/** Papers that count: not struck out. */
export function countingPapers(book: OpenBook): StoredPaper[] {
  return book.shelf('papers').all().filter((paper) => paper.struck === null);
}

/**
 * A paper as one record of a kind; its first day from midnight, its last day to its end, in the kitchen's zone.
 * @param zone IANA name
 */
export function filedPaper(paper: StoredPaper, zone: string, what: FiledKind): FiledRecord {
  const { frozen } = paper;
  return {
    what,
    number: paper.number === '' ? paper.what : paper.number,
    holder: paper.holder === '' ? 'the kitchen' : paper.holder,
    validFromMs: paper.validFrom === null ? undefined : dayStartMs(paper.validFrom, zone),
    validUntilMs: paper.validUntil === null ? undefined : dayEndMs(paper.validUntil, zone),
    onFileMs: paper.addedAtMs,
    species: paper.species.length === 0 ? undefined : paper.species,
    frozen: frozen === null ? undefined : { value: frozen.temperature.text, unit: frozen.temperature.unit, hours: frozen.hours },
    oxygenRate: paper.oxygenRate === '' ? undefined : paper.oxygenRate,
  };
}

/** The first moment of a day; where the clocks skip midnight, the first hour that day has. */
export function dayStartMs(day: string, zone: string): number {
  const midnight = instantOf(day, '00:00', zone);
  return midnight.ok ? midnight.value : unwrap(instantOf(day, '01:00', zone));
}

/** The last moment of a day. */
export function dayEndMs(day: string, zone: string): number {
  return dayStartMs(dayText(addDays(unwrap(readDay(day)), 1)), zone) - 1;
}
