/** What the door and the back room's thread say to each other. */
import type { Reply } from '../../app/contract/envelope.ts';
import type { Subject } from '../../app/contract/events.ts';
import type { BookChoice } from './backroom.ts';
import type { LogLine } from './log.ts';
import type { Caller } from './room.ts';

/** A reply as JSON in UTF-8. */
export type ReplyText = Uint8Array<ArrayBuffer>;

export function textOfReply(reply: Reply<unknown>): ReplyText {
  return new TextEncoder().encode(JSON.stringify(reply));
}

export interface ThreadData {
  readonly choice: BookChoice;
  /** The entry of the helper threads; null lets the back room do their work itself. */
  readonly handFile: string | null;
}

/** A request to the thread, without the number its answer comes back under; `ask-text` is answered with the text of the reply. */
export type ToThread =
  | { readonly kind: 'ask' | 'ask-text'; readonly name: unknown; readonly input: unknown; readonly caller: Caller }
  | { readonly kind: 'take'; readonly fileName: string; readonly bytes: Uint8Array }
  | { readonly kind: 'close' };
export type NumberedToThread = ToThread & { readonly id: number };

export type FromThread =
  | { readonly kind: 'reply'; readonly id: number; readonly reply: Reply<unknown> }
  | { readonly kind: 'text'; readonly id: number; readonly text: ReplyText }
  | { readonly kind: 'changed'; readonly subject: Subject; readonly ids: readonly string[] }
  | { readonly kind: 'log'; readonly line: LogLine };
