/** The pieces a new load starts with, and what is sent. Pure. */
import type { Input } from '../../../app/contract/contract.ts';
import type { Smoker } from '../../../app/contract/requests/office.ts';
import { words } from '../../words/words.ts';

export interface PieceRow {
  readonly name: string;
  readonly instrumentId: string;
  readonly thickness: string;
  readonly rackPlace: string;
}

const text = words.smokehouse;

/**
 * A piece for each probe the smoker has (three by hand where it has none), numbered as the probes
 * are, the first one the thickest in the coldest place. With `single`, one more piece of that number.
 */
export function pieceRows(smoker: Smoker | null, thickestMm: number, single?: number): PieceRow[] {
  const thickness = thickestMm > 0 ? String(thickestMm) : '';
  const place = (index: number): string => text.rackPlaces[index % text.rackPlaces.length] ?? '';
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
