/** What a batch can be found by, and whether a typed text fits it. */
import { localDay } from '../../../app/measures/zone.ts';
import type { StoredBatch } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import { lotsOf } from './batch-view.ts';
import { speciesOf } from './species.ts';
import { zoneOf } from './when.ts';
import { loadOfBatch } from './taken-out.ts';

const MONTHS = ['january', 'february', 'march', 'april', 'may', 'june', 'july', 'august', 'september', 'october', 'november', 'december'];
/** Fewer characters of a code fit nearly every code. */
const SHORTEST_CODE = 3;

/** All that names a batch. */
export interface SearchWords {
  /** Lots, packs and fish lots, without spaces and hyphens. */
  readonly codes: readonly string[];
  readonly words: readonly string[];
}

/** Codes and names of a batch: its own, its fish's, its packs', and its days. */
export function searchWords(room: BookRoom, batch: StoredBatch): SearchWords {
  const { book } = room;
  const species = speciesOf(room, batch.speciesId);
  const lots = lotsOf(room, batch);
  const load = loadOfBatch(room, batch);
  const instants = [batch.madeAtMs, load?.inAtMs, load?.outAtMs, ...lots.map((lot) => lot.receivedAtMs)].filter((atMs) => typeof atMs === 'number');
  const codes = [batch.shortName, batch.lotCode ?? '', ...lots.map((lot) => lot.code), ...book.shelf('packs').where('batchId', batch.id).map((pack) => pack.code)];
  const sources = lots.flatMap(({ source }) => (source.kind === 'guest' ? [source.ownerName, source.licence ?? ''] : [source.supplierName, source.supplierLot]));
  const days = new Set(instants.map((atMs) => localDay(atMs, zoneOf(room))));
  return {
    codes: codes.map(compact).filter((code) => code !== ''),
    words: wordsOf([batch.shortName, species.commonName, species.marketName, species.scientificName, ...sources, ...[...days].map(dayWords)].join(' ')),
  };
}

/** `2026-03-14` as it may be typed: itself, and with the month's name. */
function dayWords(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${day} ${Number(date)} ${MONTHS[Number(month) - 1] ?? ''} ${year}`;
}

/** True for an empty text, for part of a code in any grouping, or where every word of it begins one of the batch's words. */
export function fits(search: SearchWords, text: string): boolean {
  const code = compact(text);
  if (code.length >= SHORTEST_CODE && search.codes.some((candidate) => candidate.includes(code))) return true;
  return wordsOf(text).every((word) => search.words.some((candidate) => candidate.startsWith(word)));
}

function compact(text: string): string {
  return text.toUpperCase().replace(/[^A-Z0-9]/g, '');
}

/** A day in figures stays one word; everything else is parted at what is neither letter nor figure. */
function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/\d{4}-\d{2}(?:-\d{2})?|[\p{L}\p{N}]+/gu) ?? [];
}
