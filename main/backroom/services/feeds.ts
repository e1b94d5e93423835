/** Live feeds: set up, switched on and off, tried, and how each stands. */
import type { Output, Parsed } from '../../../app/contract/contract.ts';
import type { ChannelNow, Feed, FeedNow } from '../../../app/contract/requests/feeds.ts';
import { localTime } from '../../../app/measures/zone.ts';
import { feedWords, type FeedLink, type FeedStanding } from '../../../app/probes/feed-words.ts';
import { whereOf } from '../feeds/feed-seen.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import type { Services } from '../service.ts';
import { actingPerson } from './acting.ts';
import { checkLink } from './feed-checks.ts';
import { keepPoint } from './measuring.ts';
import { zoneOf } from './when.ts';

export const feedServices = {
  'feed.list': (room: BookRoom): Output<'feed.list'> => ({ feeds: room.book.shelf('feeds').all().map((feed) => nowOf(room, feed)), nowMs: room.clock.nowMs() }),
  'feed.save': saveFeed,
  'feed.switch': switchFeed,
  'feed.password': givePassword,
  'feed.try': tryFeed,
} satisfies Services<'feed.list' | 'feed.save' | 'feed.switch' | 'feed.password' | 'feed.try'>;

function saveFeed(room: BookRoom, { feedId, name, link }: Parsed<'feed.save'>): Output<'feed.save'> {
  const feeds = room.book.shelf('feeds');
  const before = feedId === null ? undefined : feeds.need(feedId);
  const others = feeds.all().filter(({ id }) => id !== feedId);
  if (others.some((other) => other.name.toLowerCase() === name.toLowerCase())) {
    const message = `There is a feed called “${name}” already.`;
    throw new Refusal('CONFLICT', message, { remedy: 'Give this one another name.', fields: [{ path: ['name'], message }] });
  }
  checkLink(room, link, others);
  // What a cooler's thermometer sends belongs to the cooler's point, which is there from its first reading on.
  for (const { placeId } of link.channels) if (placeId !== null) keepPoint(room, placeId);
  const id = before?.id ?? room.newId();
  const feed: Feed = {
    id, name, link, isOn: true, savedAtMs: room.clock.nowMs(), savedBy: actingPerson(room).initials,
    clientId: before?.clientId ?? `alderbook-${id.slice(-12)}`,
  };
  feeds.put(feed);
  room.book.record({
    kind: 'feed.save', subjectId: id, happenedAtMs: null, before: before ?? null, after: feed,
    summary: `${before === undefined ? 'Set up' : 'Changed'} the live feed “${name}”: ${link.kind === 'modbus' ? 'Modbus' : 'MQTT'} from ${link.host}, ${link.channels.length} ${link.channels.length === 1 ? 'thermometer' : 'thermometers'}.`,
  });
  room.changed('feeds', [id]);
  return { feed };
}

function switchFeed(room: BookRoom, { feedId, isOn }: Parsed<'feed.switch'>): Output<'feed.switch'> {
  const feeds = room.book.shelf('feeds');
  const before = feeds.need(feedId);
  if (before.isOn === isOn) return { feed: before };
  const feed = { ...before, isOn };
  feeds.put(feed);
  room.book.record({ kind: 'feed.switch', subjectId: feedId, happenedAtMs: null, before, after: feed, summary: `Switched the live feed “${feed.name}” ${isOn ? 'on' : 'off'}.` });
  room.changed('feeds', [feedId]);
  return { feed };
}

function givePassword(room: BookRoom, { feedId, password }: Parsed<'feed.password'>): Output<'feed.password'> {
  needChef(room);
  const feed = room.book.shelf('feeds').need(feedId);
  if (feed.link.kind !== 'mqtt' || !feed.link.hasPassword) throw new Refusal('INVALID_INPUT', `The feed “${feed.name}” has no password.`, { remedy: 'Change the feed first, if its broker wants one.' });
  room.feeds.setPassword(feedId, password);
  return {};
}

/** Whoever may set a feed up may try it and give its password; these are no commands, so the contract can't say it. */
function needChef(room: BookRoom): void {
  if (actingPerson(room).role === 'hand') throw new Refusal('NOT_ALLOWED', 'This needs a manager or a chef.', { remedy: 'Ask a manager or a chef to do it.' });
}

async function tryFeed(room: BookRoom, { link, password, seconds }: Parsed<'feed.try'>): Promise<Output<'feed.try'>> {
  needChef(room);
  checkLink(room, link, []);
  // Under a name of its own, or the broker would end the connection of the feed itself.
  const { standing, channels, others } = await room.feeds.tryLink(link, { password, clientId: `alderbook-try-${room.newId().slice(-12)}`, milliseconds: seconds * 1000 });
  const sayAgain = standing.link.state === 'lost' ? `No connection: ${standing.link.why}.` : wordsOf(room, standing);
  return { worked: channels.some(({ value }) => value !== null), text: sayAgain, channels: [...channels], others: [...others] };
}

function nowOf(room: BookRoom, feed: Feed): FeedNow {
  const state = room.feeds.stateOf(feed);
  const link = state?.standing.link ?? linkWithout(room, feed);
  const standing: FeedStanding = state?.standing ?? { kind: feed.link.kind, link, lastMs: null, silentAfterMs: 0, missing: [], notKept: null, nowMs: room.clock.nowMs() };
  return {
    feed, state: link.state, text: wordsOf(room, standing),
    counts: state?.counts ?? { came: 0, kept: 0, repeated: 0, homeless: 0, nonsense: 0 },
    channels: state === undefined ? feed.link.channels.map((channel) => channelWithout(room, channel)) : [...state.channels],
    others: state === undefined ? [] : [...state.others],
  };
}

/** Why a feed does not run. */
function linkWithout(room: BookRoom, { id, isOn, link }: Feed): FeedLink {
  if (!isOn) return { state: 'off' };
  if (!room.feeds.runs || room.book.readOnly) return { state: 'not-here' };
  return link.kind === 'mqtt' && link.hasPassword && !room.feeds.hasPassword(id) ? { state: 'needs-password' } : { state: 'connecting' };
}

function channelWithout(room: BookRoom, channel: Feed['link']['channels'][number]): ChannelNow {
  return { where: whereOf(channel), instrumentId: channel.instrumentId, instrumentName: room.book.shelf('instruments').get(channel.instrumentId)?.name ?? '', value: null, problem: null, keptIn: null };
}

function wordsOf(room: BookRoom, standing: FeedStanding): string {
  const zone = zoneOf(room);
  return feedWords(standing, (atMs) => `${localTime(atMs, zone).clock}:${String(Math.floor(atMs / 1000) % 60).padStart(2, '0')}`);
}
