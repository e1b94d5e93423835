/** Which thermometer a logger's column is from, where its piece had several. Pure. */
import type { Point } from '../../app/contract/requests/smokehouse.ts';

/** Stands for a thermometer that nobody named. */
const BY_HAND = 'by-hand';

/** The thermometers of a piece, each once, the first first; one where it was never changed. */
export function instrumentChoices(point: Pick<Point, 'instrumentId' | 'instrumentName' | 'earlier'> | undefined): { readonly id: string; readonly name: string }[] {
  if (point === undefined) return [];
  return [...new Map([...(point.earlier ?? []), point].map(({ instrumentId, instrumentName }) => [instrumentId ?? BY_HAND, { id: instrumentId ?? BY_HAND, name: instrumentName }])).values()];
}

/** The columns with what was chosen; nothing is said of a piece that had one thermometer, or of one where nothing was chosen. */
export function fromInstruments<T extends { readonly name: string; readonly pointId: string }>(columns: readonly T[], points: readonly Point[], chosen: Readonly<Record<string, string>>): (T & { readonly instrumentId?: string | null })[] {
  return columns.map((column) => {
    const found = instrumentChoices(points.find((point) => point.id === column.pointId));
    const instrument = found.length < 2 ? undefined : found.find(({ id }) => id === chosen[column.name]);
    return instrument === undefined ? column : { ...column, instrumentId: instrument.id === BY_HAND ? null : instrument.id };
  });
}
