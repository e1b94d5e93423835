/** Label stocks: those that come with the program, and the kitchen's own. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { LabelStock, StockDraft } from '../../../app/contract/requests/label-choice.ts';
import type { Stock } from '../../../app/contract/requests/packing.ts';
import { unwrap, Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { readStock } from '../../../app/packs/label-size.ts';

/** Every stock, the kitchen's own first. */
export function stocksOf(room: BookRoom): Stock[] {
  const own = room.book.shelf('labelStocks').all().map(({ id, name, widthMm, heightMm, sheet }) => ({ id, name, widthMm, heightMm, ...(sheet === null ? {} : { sheet }) }));
  return [...own, ...room.catalogue.stocks];
}

/**
 * A stock by its id.
 * @throws Refusal NOT_FOUND
 */
export function needStock(room: BookRoom, stockId: string): Stock {
  const stock = stocksOf(room).find((candidate) => candidate.id === stockId);
  if (stock === undefined) throw new Refusal('NOT_FOUND', `There is no label stock “${stockId}”.`, { remedy: 'Choose one from the list.' });
  return stock;
}

/**
 * Adds a stock of the kitchen's own, or mends one.
 * @throws Refusal INVALID_INPUT naming the field; CONFLICT for a name that is taken
 */
export function saveStock(room: BookRoom, { stockId, draft }: Parsed<'label.saveStock'>): Output<'label.saveStock'> {
  const shelf = room.book.shelf('labelStocks');
  const before = stockId === null ? undefined : shelf.need(stockId);
  const stock: LabelStock = { id: before?.id ?? room.newId(), ...unwrap(readStock(draft)) };
  refuseTakenName(room, stock);
  shelf.put(stock);
  room.book.record({
    kind: 'label.saveStock', subjectId: stock.id, happenedAtMs: null,
    summary: `${before === undefined ? 'Added' : 'Changed'} the label stock “${stock.name}”: ${sizeAsTyped(draft)}${stock.sheet === null ? ' on a roll' : `, ${stock.sheet.columns * stock.sheet.rows} on a sheet`}.`,
    ...(before === undefined ? {} : { before }), after: stock,
  });
  room.changed('packs', [stock.id]);
  return { stock };
}

function sizeAsTyped({ width, height, unit }: StockDraft): string {
  return `${width.trim()} × ${height.trim()} ${unit}`;
}

function refuseTakenName(room: BookRoom, { id, name }: LabelStock): void {
  if (!stocksOf(room).some((other) => other.id !== id && other.name.toLowerCase() === name.toLowerCase())) return;
  const message = `There is a label stock called “${name}” already.`;
  throw new Refusal('CONFLICT', message, { remedy: 'Give this one another name.', fields: [{ path: ['draft', 'name'], message }] });
}
