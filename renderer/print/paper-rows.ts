/** What stands on a sheet for paper: its columns and how many rows it has. Pure. */
import type { Load } from '../../app/contract/requests/smokehouse.ts';
import type { PaperSheetKind } from '../../app/contract/requests/paper-sheets.ts';
import { words } from '../words/words.ts';

const text = words.paper.sheet;

export const SHEET_KINDS: readonly PaperSheetKind[] = ['soak', 'smoke', 'cool', 'store'];
/** As many as fit on a page beside the head, each high enough for a pencil. */
export const ROWS: Readonly<Record<PaperSheetKind, number>> = { soak: 10, smoke: 20, cool: 18, store: 31 };

export interface SheetColumn {
  readonly key: string;
  readonly head: string;
  /** Below the head, small: thickness and place. */
  readonly about: string;
  readonly isTemperature: boolean;
}

/** Pieces of one soak that are analysed. */
export const SAMPLE_ROWS = 4;

/** The columns of a piece taken out of the brine, as its form has them. */
export function sampleColumns(): SheetColumn[] {
  return [text.thickness, text.salt, text.moisture].map((head) => ({ key: head, head, about: '', isTemperature: false }));
}

/** The columns between the time and the initials, in the order of the screen they are copied to. */
export function columnsOf(kind: PaperSheetKind, load: Load | null): SheetColumn[] {
  if (kind === 'soak') return [{ key: 'what', head: text.what, about: '', isTemperature: false }, { key: 'brine', head: text.brine, about: '', isTemperature: true }, { key: 'room', head: text.room, about: '', isTemperature: true }];
  if (kind === 'store' || load === null) return [{ key: 'value', head: text.shows, about: '', isTemperature: true }];
  return load.points.filter((point) => point.role === 'piece' || (kind === 'smoke' && point.role === 'chamber'))
    .map((point) => ({ key: point.id, head: point.name, about: [point.thicknessMm === null ? '' : `${point.thicknessMm} mm`, point.rackPlace].filter((part) => part !== '').join(', '), isTemperature: true }));
}
