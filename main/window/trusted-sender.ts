/** Whether a message comes from the page of our own window. */
import { isOwnPage } from './own-page.ts';

/** The part of Electron's event that says who sent a message. */
export interface SenderEvent {
  readonly sender: { readonly id: number };
  readonly senderFrame: { readonly url: string; readonly parent: unknown } | null;
}

/** True for the top frame of the window with `windowContentsId`, while it shows a page of ours. */
export function isTrustedSender(event: SenderEvent, windowContentsId: number): boolean {
  const frame = event.senderFrame;
  return event.sender.id === windowContentsId && frame !== null && frame.parent === null && isOwnPage(frame.url);
}
