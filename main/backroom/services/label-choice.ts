/** How the kitchen's labels look, its own stocks and its mark. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import { USUAL_CHOICE, type LabelChoice, type LabelMark } from '../../../app/contract/requests/label-choice.ts';
import { readPouch } from '../../../app/packs/label-size.ts';
import { readMark } from '../../../app/packs/label-mark.ts';
import { readGtin } from '../../../app/packs/pack-code.ts';
import { wordsOnLabel } from '../../../app/packs/plain-text.ts';
import { Refusal, unwrap } from '../refusal.ts';
import type { BookRoom, OpenBook } from '../room.ts';
import type { Services } from '../service.ts';
import { kitchenOf } from './kitchen.ts';
import { saveStock } from './label-stocks.ts';

export const labelChoiceServices = {
  'label.choice': ({ book }: BookRoom): Output<'label.choice'> => ({
    choice: choiceOf(book), isChosen: kitchenOf(book).labels !== undefined, ownStocks: book.shelf('labelStocks').all(),
  }),
  'label.choose': chooseLabels,
  'label.saveStock': saveStock,
  'label.mark': giveMark,
} satisfies Services<'label.choice' | 'label.choose' | 'label.saveStock' | 'label.mark'>;

/** The choice that stands; the usual one as long as nobody has chosen. */
export function choiceOf(book: OpenBook): LabelChoice {
  return kitchenOf(book).labels ?? USUAL_CHOICE;
}

function chooseLabels(room: BookRoom, { pouch, gtin, mark, ...rest }: Parsed<'label.choose'>): Output<'label.choose'> {
  const kitchen = room.book.shelf('kitchen').need('kitchen');
  const choice: LabelChoice = {
    ...rest,
    optional: [...new Set(rest.optional)],
    pouch: pouch === null ? null : unwrap(readPouch(pouch)),
    gtin: gtin.trim() === '' ? null : unwrap(readGtin(gtin)),
    mark: readChosenMark(room, mark),
  };
  room.book.shelf('kitchen').put({ ...kitchen, labels: choice });
  room.book.record({
    kind: 'label.choose', subjectId: 'kitchen', happenedAtMs: null,
    summary: 'Changed how labels look.', before: kitchen.labels ?? null, after: choice,
  });
  room.changed('office', ['kitchen']);
  room.changed('packs', []);
  return { choice };
}

function readChosenMark(room: BookRoom, mark: Parsed<'label.choose'>['mark']): LabelMark | null {
  switch (mark.kind) {
    case 'none': return null;
    case 'text': {
      const text = unwrap(wordsOnLabel(mark.text, 'mark.text', 'The mark'));
      if (text.length <= 60) return { kind: 'text', text };
      throw new Refusal('INVALID_INPUT', 'A mark of more than 60 letters leaves no room for what the rules ask.', {
        remedy: 'Shorten it.', fields: [{ path: ['mark', 'text'], message: 'A mark has at most 60 letters.' }],
      });
    }
    case 'picture': return { kind: 'picture', fileId: mark.fileId, ...unwrap(readMark(needFile(room, mark.fileId).bytes)) };
  }
}

function giveMark(room: BookRoom, { fileId }: Parsed<'label.mark'>): Output<'label.mark'> {
  const { bytes } = needFile(room, fileId);
  // Nothing but a small picture is given away here: most other files of the inbox are somebody's papers.
  unwrap(readMark(bytes, 'fileId'));
  return { base64: Buffer.from(bytes).toString('base64') };
}

function needFile(room: BookRoom, fileId: string): { readonly bytes: Uint8Array } {
  const file = room.book.inboxFile(fileId);
  if (file === undefined) throw new Refusal('NOT_FOUND', 'The file of the mark is not in the book.', { remedy: 'Choose the picture again.' });
  return file;
}
