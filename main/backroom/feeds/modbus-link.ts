/** A Modbus device asked again and again for the registers of its channels. */
import type { ModbusChannel, ModbusLink } from '../../../app/contract/requests/feeds.ts';
import { registersOf, requestsFor, temperatureOfRegisters, wireAddress, type RegisterRequest } from '../../../app/probes/feed-registers.ts';
import { ANSWER_MS, untilDown, type Arrival, type Link, type LinkParts } from './feed-link.ts';
import { BrokenLink, connectModbus, type ModbusClient } from './modbus-client.ts';

/** The refusals of the protocol (Modbus Organization, Modbus Application Protocol V1.1b3, 7, 2012; from memory). */
const REFUSALS: Readonly<Record<number, string>> = {
  1: 'the device can’t read that table', 2: 'the device has no such register', 3: 'the device refuses to be asked for it', 4: 'the device has failed',
  6: 'the device is busy', 10: 'the gateway has no way to the device', 11: 'the device behind the gateway doesn’t answer',
};

interface PlacedChannel {
  readonly index: number;
  readonly channel: ModbusChannel;
  readonly request: RegisterRequest;
}

/** Opens it; the settings were checked when they were saved. */
export function openModbusLink(link: ModbusLink, { events: told, clock }: LinkParts): Link {
  const channels = link.channels.flatMap((channel, index): PlacedChannel[] => {
    const address = wireAddress(channel.register, link.countsFrom, channel.table, channel.type);
    return address.ok ? [{ index, channel, request: { table: channel.table, address: address.value, count: registersOf(channel.type) } }] : [];
  });
  let timer: NodeJS.Timeout | undefined;
  /** A device that refuses a stretch is asked for each channel by itself from then on. */
  let asksSingly = false;
  const events = untilDown(told, () => {
    clearTimeout(timer);
    connection.close();
  });
  const connection = connectModbus(link, events.down);

  async function ask(client: ModbusClient, request: RegisterRequest): Promise<Arrival[]> {
    const inside = channels.filter((placed) => isInside(placed.request, request));
    const askedMs = clock.nowMs();
    const answer = await client.read(request);
    const atMs = clock.nowMs();
    if (!answer.ok) {
      if (inside.length > 1) asksSingly = true;
      const why = REFUSALS[answer.refusal] ?? 'the device refuses';
      return inside.map(({ index }) => ({ channel: index, atMs, value: { kind: 'missing', why: `${why}, refusal ${answer.refusal}` }, unkept: null }));
    }
    // A computer that slept between question and answer doesn't know when the answer was true.
    const unkept = atMs - askedMs > 2 * ANSWER_MS || atMs < askedMs ? 'this computer’s clock jumped while it was asked for' : null;
    return inside.map(({ index, channel, request: { address, count } }) => {
      const registers = answer.registers.slice(address - request.address, address - request.address + count);
      return { channel: index, atMs, value: temperatureOfRegisters(registers, channel), unkept };
    });
  }
  async function poll(client: ModbusClient): Promise<void> {
    const wanted = channels.map(({ request }) => request);
    const singly = asksSingly;
    const arrivals: Arrival[] = [];
    for (const request of singly ? uniqueOf(wanted) : requestsFor(wanted)) arrivals.push(...await ask(client, request));
    if (!singly && asksSingly) return poll(client);
    events.arrived(arrivals);
  }
  async function run(): Promise<void> {
    const client = await connection.ready;
    events.up();
    const everyMs = link.pollSeconds * 1000;
    const beganMs = performance.now();
    const again = async (): Promise<void> => {
      try {
        await poll(client);
        // On the beat it began with; one that was missed is left out.
        const sinceMs = performance.now() - beganMs;
        timer = setTimeout(() => { void again(); }, everyMs - (sinceMs % everyMs));
      } catch (problem) {
        events.down(problem instanceof BrokenLink ? problem.message : 'reading it failed');
      }
    };
    await again();
  }
  run().catch((problem: unknown) => events.down(problem instanceof BrokenLink ? problem.message : 'the connection failed'));
  return { acknowledge: () => undefined, close: events.stop };
}

function isInside(inner: RegisterRequest, outer: RegisterRequest): boolean {
  return inner.table === outer.table && inner.address >= outer.address && inner.address + inner.count <= outer.address + outer.count;
}

function uniqueOf(requests: readonly RegisterRequest[]): RegisterRequest[] {
  return [...new Map(requests.map((request) => [`${request.table} ${request.address} ${request.count}`, request])).values()];
}
