/** One pack found by what a scanner or a person typed; a sentence where the code is from elsewhere. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { Pack } from '../../../app/contract/requests/packing.ts';
import { readScan } from '../../../app/packs/scan-code.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { kitchenOf } from './kitchen.ts';
import { viewPackWhere } from './pack-where.ts';
import { movesOf } from './pack-where-last.ts';

/** @throws Refusal INVALID_INPUT: no code of a pack, a wrong check character or digit, another trade item number; NOT_FOUND: a pack of another book */
export function findPack(room: BookRoom, { text }: Parsed<'pack.find'>): Output<'pack.find'> {
  const pack = packByScan(room, text);
  return { pack: viewPackWhere(room, pack), moves: movesOf(room, pack.id) };
}

/** The pack behind a scan. */
export function packByScan(room: BookRoom, text: string): Pack {
  const scanned = unwrap(readScan(text));
  const [pack] = room.book.shelf('packs').where('code', scanned.code);
  if (scanned.gtin !== undefined && !isOurs(room, scanned.gtin, pack)) {
    const message = `The symbol is of trade item ${scanned.gtin}, which is not this kitchen’s.`;
    throw new Refusal('INVALID_INPUT', message, { remedy: 'The pack is from elsewhere. Set it aside, and ask whose it is.', fields: [{ path: ['text'], message }] });
  }
  if (pack !== undefined) return pack;
  const isLotKnown = room.book.shelf('batches').where('lotCode', scanned.lot).length > 0;
  const message = isLotKnown ? `Lot ${scanned.lot} has no pack ${scanned.code.slice(-3)}.` : `${scanned.code} is no pack of this kitchen: its code is in order, but this book has no such lot.`;
  throw new Refusal('NOT_FOUND', message, {
    remedy: isLotKnown ? 'Look at the number again; it may not have been sealed yet.' : 'It is from another kitchen. Set it aside, and ask whose it is.',
    fields: [{ path: ['text'], message }],
  });
}

/** The kitchen's own number, now or when this pack's label was printed. */
function isOurs(room: BookRoom, gtin: string, pack: Pack | undefined): boolean {
  if (kitchenOf(room.book).labels?.gtin === gtin) return true;
  return pack !== undefined && room.book.shelf('prints').where('packId', pack.id).some(({ label }) => label.code.content.includes(gtin));
}
