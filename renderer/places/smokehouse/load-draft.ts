/** The pieces a new load starts with, and what is sent. Pure. */
import type { Input } from '../../../app/contract/contract.ts';
import type { Smoker } from '../../../app/contract/requests/office.ts';
import type { Process } from '../../../app/contract/requests/quantities.ts';
import { readThicknessMm } from '../../parts/thickness.ts';
import { words } from '../../words/words.ts';

export interface PieceRow {
  readonly name: string;
  readonly instrumentId: string;
  readonly thickness: string;
  readonly rackPlace: string;
}

const text = words.smokehouse;
/** The thickest piece that a load takes. */
export const MOST_MM = 300;

/** Where heat is proven, or cold smoke kept in bounds: the place that the office has on file comes first. */
export function rackPlacesOf(smoker: Smoker | null, process: Process | null): string[] {
  const known = process === 'cold' ? smoker?.warmestPlace : smoker?.coldestPlace;
  return known === undefined || known.trim() === '' ? [...text.rackPlaces] : [known, ...text.rackPlaces];
}

/**
 * A piece for each probe the smoker has (three by hand where it has none), numbered as the probes
 * are, the first one the thickest in the place that decides. With `single`, one more piece of that number.
 */
export function pieceRows(smoker: Smoker | null, thickestMm: number, process: Process | null = null, single?: number): PieceRow[] {
  const thickness = thickestMm > 0 ? String(thickestMm) : '';
  const places = rackPlacesOf(smoker, process);
  const place = (index: number): string => places[index % places.length] ?? '';
  if (single !== undefined) return [{ name: text.pieceName(single), instrumentId: '', thickness, rackPlace: place(single - 1) }];
  const probes = smoker === null || smoker.probeIds.length === 0 ? ['', '', ''] : smoker.probeIds.slice(0, 3);
  return probes.map((instrumentId, index) => ({ name: text.pieceName(index + 1), instrumentId, thickness, rackPlace: place(index) }));
}

/** The command that opens the load; pieces go to the batches in turn. */
export function loadDraft(smoker: Smoker, batchIds: readonly string[], rows: readonly PieceRow[]): Input<'load.open'> {
  return {
    smokerId: smoker.id,
    batchIds: [...batchIds],
    chamberInstrumentId: smoker.chamberInstrumentId,
    pieces: rows.map((row, index) => ({
      name: row.name,
      batchId: batchIds[index % batchIds.length] ?? '',
      thicknessMm: Number(row.thickness),
      rackPlace: row.rackPlace,
      instrumentId: row.instrumentId === '' ? null : row.instrumentId,
    })),
  };
}

/** What is asked before the load is lit; a thickness that can't be read is not known. */
export function readyInput(smoker: Smoker, batchIds: readonly string[], rows: readonly PieceRow[]): Input<'load.ready'> {
  const { pieces } = loadDraft(smoker, batchIds, rows);
  return {
    smokerId: smoker.id,
    batchIds: [...batchIds],
    pieces: pieces.map(({ batchId, instrumentId, rackPlace }, index) => ({ batchId, thicknessMm: readThicknessMm(rows[index]?.thickness ?? '', MOST_MM), instrumentId, rackPlace })),
  };
}
