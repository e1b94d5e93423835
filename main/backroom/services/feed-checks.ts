/** What is wrong with the set-up of a live feed, said at its field. */
import type { FeedLinkDraft, ModbusChannel, ModbusLink, MqttChannel, MqttLink } from '../../../app/contract/requests/feeds.ts';
import type { Outcome } from '../../../app/measures/outcome.ts';
import { readPath } from '../../../app/probes/feed-payload.ts';
import { isScaling, wireAddress } from '../../../app/probes/feed-registers.ts';
import { isUnder, readTopic, readTopicFilter } from '../../../app/probes/feed-topics.ts';
import type { BookRoom } from '../room.ts';
import { refuseInput } from './field-refusal.ts';

type Path = readonly (string | number)[];

/** One a second is what a core needs; more than an hour apart is no feed (our choice). */
const LONGEST_POLL_SECONDS = 3600;

/**
 * Refuses a set-up that can't work.
 * @param otherLinks the set-ups of the other feeds: a thermometer is sent by one feed only
 */
export function checkLink(room: BookRoom, link: FeedLinkDraft, others: readonly { readonly name: string; readonly link: FeedLinkDraft }[]): void {
  checkHost(link.host);
  if (!Number.isInteger(link.port) || link.port < 1 || link.port > 65_535) refuseInput(`There is no port ${link.port}.`, ['link', 'port'], `Ports are whole numbers from 1 to 65535; ${link.kind === 'modbus' ? 'most devices with Modbus listen at 502' : 'most brokers listen at 1883'}.`);
  if (link.kind === 'modbus') checkModbus(link);
  else checkMqtt(link);
  checkInstruments(room, link, others);
}

function checkHost(host: string): void {
  if (host === '') refuseInput('The address is empty.', ['link', 'host'], 'Write the device’s address in your network, such as 192.168.1.20, or its name.');
  if (/^[a-z][a-z0-9+.-]*:\/\//i.test(host)) refuseInput(`“${shown(host)}” is a whole web address.`, ['link', 'host'], 'Write the name or number alone; port, user and password have fields of their own.');
  if (!/^[\p{L}\p{N}._:%-]+$/u.test(host)) refuseInput(`“${shown(host)}” is no address.`, ['link', 'host'], 'Write a number such as 192.168.1.20, or a name without spaces and slashes.');
}

function checkModbus({ unitId, pollSeconds, countsFrom, channels }: ModbusLink): void {
  if (!Number.isInteger(unitId) || unitId < 0 || unitId > 255) refuseInput(`There is no unit ${unitId}.`, ['link', 'unitId'], 'Unit numbers are whole, from 0 to 255; a device of its own is most often 1.');
  if (!(pollSeconds >= 1 && pollSeconds <= LONGEST_POLL_SECONDS)) refuseInput(`It can’t be asked every ${pollSeconds} s.`, ['link', 'pollSeconds'], `Choose from 1 s to ${LONGEST_POLL_SECONDS} s.`);
  for (const [index, channel] of channels.entries()) checkRegister(channel, countsFrom, ['link', 'channels', index]);
}

function checkRegister({ register, table, type, scale, offset }: ModbusChannel, countsFrom: 0 | 1, path: Path): void {
  need(wireAddress(register, countsFrom, table, type), [...path, 'register']);
  if (!isScaling(scale)) refuseInput(`“${shown(scale)}” is no number to multiply by.`, [...path, 'scale'], 'Write 1, or a decimal such as 0.1 where the device sends tenths.');
  if (/^[+-]?0+(?:\.0*)?$/.test(scale)) refuseInput('Multiplied by 0 every reading would be the same.', [...path, 'scale'], 'Write 1, or a decimal such as 0.1 where the device sends tenths.');
  if (!isScaling(offset)) refuseInput(`“${shown(offset)}” is no number to add.`, [...path, 'offset'], 'Write 0, or a decimal such as -40.');
}

function checkMqtt({ topicFilter, channels, user, hasPassword }: MqttLink): void {
  need(readTopicFilter(topicFilter), ['link', 'topicFilter']);
  if (hasPassword && user === '') refuseInput('A password needs a user.', ['link', 'user'], 'Write the user’s name, or leave the password out.');
  for (const [index, channel] of channels.entries()) checkTopic(channel, topicFilter, ['link', 'channels', index]);
}

function checkTopic({ topic, path, timePath }: MqttChannel, topicFilter: string, at: Path): void {
  need(readTopic(topic), [...at, 'topic']);
  if (!isUnder(topic, topicFilter)) refuseInput(`The topic ${shown(topic)} is not under ${shown(topicFilter)}, so it would never come.`, [...at, 'topic'], 'Make the filter wider, or correct the topic.');
  need(readPath(path), [...at, 'path']);
  need(readPath(timePath), [...at, 'timePath']);
}

function checkInstruments(room: BookRoom, link: FeedLinkDraft, others: readonly { readonly name: string; readonly link: FeedLinkDraft }[]): void {
  const taken = new Set<string>();
  for (const [index, { instrumentId, placeId }] of link.channels.entries()) {
    const path = ['link', 'channels', index, 'instrumentId'];
    const instrument = room.book.shelf('instruments').get(instrumentId);
    if (instrument === undefined) refuseInput('That thermometer is not in this book.', path, 'Choose one of the office’s thermometers.');
    if (taken.has(instrumentId)) refuseInput(`${instrument.name} is named twice.`, path, 'Each thermometer is sent once.');
    taken.add(instrumentId);
    const other = others.find((one) => one.link.channels.some((channel) => channel.instrumentId === instrumentId));
    if (other !== undefined) refuseInput(`${instrument.name} is sent by the feed “${other.name}” already.`, path, 'A thermometer is sent by one feed only: choose another, or change that feed.');
    if (placeId !== null && room.book.shelf('places').get(placeId) === undefined) refuseInput('That place is not in this book.', ['link', 'channels', index, 'placeId'], 'Choose one of the office’s places.');
  }
}

function need(read: Outcome<unknown>, path: Path): void {
  if (!read.ok) refuseInput(read.problem.message, path, read.problem.remedy ?? 'Check it.');
}

function shown(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
