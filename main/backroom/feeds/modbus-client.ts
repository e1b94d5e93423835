/**
 * Registers over Modbus TCP. jsmodbus calls itself a beta, so it gets no socket of its own: it writes and hears through
 * a stand-in, what it throws ends the connection, and after any answer that is late or broken a new one is made.
 */
import { EventEmitter } from 'node:events';
import net from 'node:net';
import { ModbusTCPClient } from 'jsmodbus';
import type { RegisterRequest } from '../../../app/probes/feed-registers.ts';
import { ANSWER_MS, CONNECT_MS, faultWords } from './feed-link.ts';

/** The registers, or the number with which the device refused them. */
export type RegisterAnswer = { readonly ok: true; readonly registers: readonly number[] } | { readonly ok: false; readonly refusal: number };

export interface ModbusClient {
  /** Asks for a stretch of registers. Rejects with a `BrokenLink` when the connection is over. */
  read(request: RegisterRequest): Promise<RegisterAnswer>;
  close(): void;
}

/** Why a connection is over, as a part of a sentence. */
export class BrokenLink extends Error {}

/** More bytes than any answer, between one question and the next: whoever sends that is no such device. */
const MOST_BYTES = 4096;

/** What jsmodbus uses of a socket. */
class SocketStandIn extends EventEmitter {
  readonly write: (bytes: Uint8Array, done?: (fault?: Error | null) => void) => boolean;
  constructor(socket: net.Socket) {
    super();
    this.write = (bytes, done) => socket.write(bytes, done);
  }
}

/** Connects. Rejects with a `BrokenLink`; `broken` is told when a connection that was made is over. */
export function connectModbus({ host, port, unitId }: { readonly host: string; readonly port: number; readonly unitId: number }, broken: (why: string) => void): { readonly ready: Promise<ModbusClient>; close(): void } {
  const socket = net.connect({ host, port });
  const standIn = new SocketStandIn(socket);
  const { promise: ready, resolve, reject } = Promise.withResolvers<ModbusClient>();
  const connecting = setTimeout(() => finish('nothing answers at this address'), CONNECT_MS);
  let bytesSince = 0;
  let isOver = false;

  function finish(why: string): void {
    if (isOver) return;
    isOver = true;
    clearTimeout(connecting);
    socket.destroy();
    // Lets the library end what it still waits for.
    attempt(() => standIn.emit('close'));
    reject(new BrokenLink(why));
    broken(why);
  }
  function attempt(act: () => void): void {
    try {
      act();
    } catch {
      finish('it sent what no device of this kind sends');
    }
  }
  async function read(client: ModbusTCPClient, { table, address, count }: RegisterRequest): Promise<RegisterAnswer> {
    if (isOver) throw new BrokenLink('the connection is over');
    bytesSince = 0;
    try {
      const answered = table === 'holding' ? await client.readHoldingRegisters(address, count) : await client.readInputRegisters(address, count);
      const registers = Array.from(answered.response.body.valuesAsArray);
      if (registers.length === count) return { ok: true, registers };
    } catch (problem) {
      const refusal = refusalIn(problem);
      if (refusal !== undefined) return { ok: false, refusal };
      finish(errOf(problem) === 'Timeout' ? `it did not answer within ${ANSWER_MS / 1000} s; the unit number may be wrong` : 'its answer was broken');
      throw new BrokenLink('the connection is over');
    }
    finish('its answer was broken');
    throw new BrokenLink('the connection is over');
  }

  socket.setNoDelay(true);
  socket.on('error', (problem) => finish(faultWords(problem)));
  socket.on('close', () => finish('it broke the connection off'));
  socket.on('data', (bytes) => {
    bytesSince += bytes.length;
    if (bytesSince > MOST_BYTES) finish('it sends without being asked: it speaks another language than Modbus');
    else attempt(() => standIn.emit('data', bytes));
  });
  socket.once('connect', () => {
    clearTimeout(connecting);
    attempt(() => {
      // It calls `on` and `write` and nothing else of a socket.
      const client = new ModbusTCPClient(standIn as unknown as net.Socket, unitId, ANSWER_MS);
      standIn.emit('connect');
      resolve({ read: (request) => read(client, request), close: () => finish('closed') });
    });
  });
  return { ready, close: () => finish('closed') };
}

function errOf(problem: unknown): string {
  return typeof problem === 'object' && problem !== null && 'err' in problem ? String(problem.err) : '';
}

/** The number of a refusal by the device itself. */
function refusalIn(problem: unknown): number | undefined {
  if (errOf(problem) !== 'ModbusException' || typeof problem !== 'object' || problem === null || !('response' in problem)) return undefined;
  const { response } = problem;
  const body = typeof response === 'object' && response !== null && 'body' in response ? response.body : undefined;
  const code = typeof body === 'object' && body !== null && 'code' in body ? body.code : undefined;
  return typeof code === 'number' ? code : undefined;
}
