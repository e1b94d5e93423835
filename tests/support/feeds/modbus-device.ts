/**
 * A Modbus TCP device in a process of its own, by a library's server, told by lines of JSON on standard input:
 * `{"set": {"holding": {"0": 628}}}` puts registers, `{"refuse": 2}` answers every question with that refusal (0 ends
 * it), `{"mute": true}` hears and says nothing, `{"garbage": "…hex"}` answers that, `{"cut": true}` ends all connections
 * and hears no more until `{"cut": false}`. Listens on this computer alone and prints its port.
 */
import net from 'node:net';
import { createInterface } from 'node:readline';
import { ModbusTCPResponse, ModbusTCPServer, responses, type ModbusTCPRequest } from 'jsmodbus';

interface Told {
  readonly set?: { readonly holding?: Readonly<Record<string, number>>; readonly input?: Readonly<Record<string, number>> };
  readonly refuse?: number;
  readonly mute?: boolean;
  readonly garbage?: string;
  readonly cut?: boolean;
}

const tables = { holding: Buffer.alloc(2 * 65_536), input: Buffer.alloc(2 * 65_536) };
const sockets = new Set<net.Socket>();
let refuse = 0;
let mute = false;
let garbage = '';
let asked = 0;
let port = Number(process.argv[2] ?? 0);

function answer(table: 'holding' | 'input', request: ModbusTCPRequest, reply: (bytes: Buffer) => void): void {
  asked += 1;
  if (mute) return;
  if (garbage !== '') {
    reply(Buffer.from(garbage, 'hex'));
    return;
  }
  const { body } = request;
  if (!('start' in body) || !('count' in body)) return;
  const Body = table === 'holding' ? responses.ReadHoldingRegistersResponseBody : responses.ReadInputRegistersResponseBody;
  const start = Number(body.start) * 2;
  const bytes = tables[table].subarray(start, start + Number(body.count) * 2);
  const answered = refuse === 0 ? new Body(bytes.length, bytes) : new responses.ExceptionResponseBody(body.fc, refuse as 2);
  reply(ModbusTCPResponse.fromRequest(request, answered as never).createPayload());
}

function open(): net.Server {
  const server = new net.Server();
  server.on('connection', (socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => sockets.delete(socket));
  });
  // Without tables of its own it asks for each answer.
  const modbus = new ModbusTCPServer(server, { holding: undefined, input: undefined } as object);
  modbus.on('readHoldingRegisters', (request, reply) => answer('holding', request as ModbusTCPRequest, reply));
  modbus.on('readInputRegisters', (request, reply) => answer('input', request as ModbusTCPRequest, reply));
  server.listen(port, '127.0.0.1', () => {
    const address = server.address();
    port = typeof address === 'object' && address !== null ? address.port : port;
    process.stdout.write(`${JSON.stringify({ port })}\n`);
  });
  return server;
}
let listening: net.Server | null = open();

function obey(told: Told): void {
  for (const table of ['holding', 'input'] as const) {
    for (const [register, value] of Object.entries(told.set?.[table] ?? {})) tables[table].writeUInt16BE(value & 0xffff, Number(register) * 2);
  }
  refuse = told.refuse ?? refuse;
  mute = told.mute ?? mute;
  garbage = told.garbage ?? garbage;
  if (told.cut === true) {
    listening?.close();
    listening = null;
    for (const socket of sockets) socket.destroy();
  }
  if (told.cut === false) listening ??= open();
  if (told.cut !== false) process.stdout.write(`${JSON.stringify({ done: true, asked })}\n`);
}

createInterface({ input: process.stdin }).on('line', (line) => obey(JSON.parse(line) as Told)).on('close', () => process.exit(0));
