/** A live feed as it is typed: text in every field, and the request that comes of it. */
import type { Input } from '../../../app/contract/contract.ts';
import type { Feed, ModbusChannel } from '../../../app/contract/requests/feeds.ts';

export const REGISTER_TYPES = ['int16', 'uint16', 'int32', 'float32'] as const;
export const REGISTER_ORDERS = ['big', 'word-swapped', 'byte-swapped', 'little'] as const;

export interface ChannelDraft {
  readonly key: string;
  readonly instrumentId: string;
  readonly placeId: string;
  readonly unit: 'F' | 'C';
  readonly register: string;
  readonly table: ModbusChannel['table'];
  readonly type: ModbusChannel['type'];
  readonly order: ModbusChannel['order'];
  readonly scale: string;
  readonly offset: string;
  readonly topic: string;
  readonly path: string;
  readonly timePath: string;
}
export interface FeedForm {
  readonly feedId: string | null;
  readonly name: string;
  readonly kind: 'modbus' | 'mqtt';
  readonly host: string;
  readonly port: string;
  readonly unitId: string;
  readonly pollSeconds: string;
  readonly countsFrom: 0 | 1;
  readonly user: string;
  readonly hasPassword: boolean;
  readonly topicFilter: string;
  readonly channels: readonly ChannelDraft[];
}

/** Where the two kinds of devices listen by custom (IANA, Service Name and Transport Protocol Port Number Registry: mbap 502, mqtt 1883; from memory). */
const PORTS = { modbus: '502', mqtt: '1883' } as const;

export function emptyChannel(unit: 'F' | 'C', key: string): ChannelDraft {
  return { key, instrumentId: '', placeId: '', unit, register: '', table: 'holding', type: 'int16', order: 'big', scale: '0.1', offset: '0', topic: '', path: '', timePath: '' };
}

export function emptyForm(unit: 'F' | 'C'): FeedForm {
  return { feedId: null, name: '', kind: 'modbus', host: '', port: PORTS.modbus, unitId: '1', pollSeconds: '1', countsFrom: 1, user: '', hasPassword: false, topicFilter: '', channels: [emptyChannel(unit, '1')] };
}

/** The other kind has another port by custom; one that was typed stays. */
export function withFeedKind(form: FeedForm, kind: FeedForm['kind']): FeedForm {
  return { ...form, kind, port: form.port === PORTS[form.kind] ? PORTS[kind] : form.port };
}

/** Another kind of number is seldom sent in tenths; bytes of a half alone can only be swapped within it. */
export function withType(channel: ChannelDraft, type: ChannelDraft['type']): ChannelDraft {
  const scale = type === 'float32' && channel.scale === '0.1' ? '1' : channel.scale;
  const order = ordersOf(type).some((one) => one === channel.order) ? channel.order : 'big';
  return { ...channel, type, scale, order };
}

export function ordersOf(type: ChannelDraft['type']): readonly ChannelDraft['order'][] {
  return type === 'int16' || type === 'uint16' ? ['big', 'byte-swapped'] : REGISTER_ORDERS;
}

/** The form of a feed that is there. */
export function formOf({ id, name, link }: Feed, unit: 'F' | 'C'): FeedForm {
  const empty = emptyForm(unit);
  const shared = { ...empty, feedId: id, name, kind: link.kind, host: link.host, port: String(link.port) };
  if (link.kind === 'modbus') {
    const { unitId, pollSeconds, countsFrom, channels } = link;
    return {
      ...shared, unitId: String(unitId), pollSeconds: String(pollSeconds), countsFrom,
      channels: channels.map((channel, index) => ({ ...emptyChannel(unit, String(index + 1)), ...channel, placeId: channel.placeId ?? '', register: String(channel.register) })),
    };
  }
  const { user, hasPassword, topicFilter, channels } = link;
  return { ...shared, user, hasPassword, topicFilter, channels: channels.map((channel, index) => ({ ...emptyChannel(unit, String(index + 1)), ...channel, placeId: channel.placeId ?? '' })) };
}

/** What is sent; a figure that is no number is told so by the back room. */
export function linkOf(form: FeedForm): Input<'feed.save'>['link'] {
  const { kind, host, port, unitId, pollSeconds, countsFrom, user, hasPassword, topicFilter, channels } = form;
  const target = ({ instrumentId, placeId, unit }: ChannelDraft) => ({ instrumentId, placeId: placeId === '' ? null : placeId, unit });
  if (kind === 'modbus') {
    return {
      kind, host, port: figureOf(port), unitId: figureOf(unitId), pollSeconds: figureOf(pollSeconds), countsFrom,
      channels: channels.map((channel) => ({ ...target(channel), register: figureOf(channel.register), table: channel.table, type: channel.type, order: channel.order, scale: channel.scale, offset: channel.offset })),
    };
  }
  return { kind, host, port: figureOf(port), user, hasPassword, topicFilter, channels: channels.map((channel) => ({ ...target(channel), topic: channel.topic, path: channel.path, timePath: channel.timePath })) };
}

function figureOf(text: string): number {
  return text.trim() === '' ? NaN : Number(text.trim().replace(',', '.'));
}
