/** The languages that feeds speak: each library is loaded with the first feed that needs it. */
import type { FeedLinkDraft } from '../../../app/contract/requests/feeds.ts';
import type { Clock } from '../room.ts';
import type { Link, LinkEvents } from './feed-link.ts';

export interface SpeakingParts {
  readonly clock: Clock;
  readonly events: LinkEvents;
  readonly clientId: string;
  readonly password: string | null;
}

export async function loadLanguage({ kind }: FeedLinkDraft): Promise<void> {
  await (kind === 'modbus' ? import('./modbus-link.ts') : import('./mqtt-link.ts'));
}

/** Makes one connection. */
export async function openLink(link: FeedLinkDraft, parts: SpeakingParts): Promise<Link> {
  if (link.kind === 'modbus') return (await import('./modbus-link.ts')).openModbusLink(link, parts);
  return (await import('./mqtt-link.ts')).openMqttLink(link, parts);
}
