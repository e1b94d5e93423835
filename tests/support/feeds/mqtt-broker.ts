/**
 * A broker of MQTT in a process of its own, told by lines of JSON on standard input: `{"publish": [{"topic", "payload",
 * "retain"}]}` sends with QoS 1, `{"cut": true}` ends all connections and hears no more until `{"cut": false}`. With a
 * user and a password as arguments it lets nobody else in. Listens on this computer alone and prints its port.
 */
import net from 'node:net';
import { createInterface } from 'node:readline';
import { Aedes } from 'aedes';

interface Told {
  readonly publish?: readonly { readonly topic: string; readonly payload: string; readonly retain?: boolean }[];
  readonly cut?: boolean;
}

const [, , portText = '0', user = '', password = ''] = process.argv;
const broker = await Aedes.createBroker();
const sockets = new Set<net.Socket>();
let port = Number(portText);

if (user !== '') {
  broker.authenticate = (_client, givenUser, givenPassword, done) => done(null, givenUser === user && givenPassword?.toString() === password);
}

function open(): net.Server {
  const server = net.createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => sockets.delete(socket));
    broker.handle(socket);
  });
  server.listen(port, '127.0.0.1', () => {
    const address = server.address();
    port = typeof address === 'object' && address !== null ? address.port : port;
    say({ port });
  });
  return server;
}

function say(what: object): void {
  process.stdout.write(`${JSON.stringify({ ...what, acknowledged, listeners })}\n`);
}

let acknowledged = 0;
let listeners = 0;
broker.on('ack', () => { acknowledged += 1; });
broker.on('subscribe', () => { listeners += 1; });
broker.on('clientError', () => undefined);
broker.on('connectionError', () => undefined);
let listening: net.Server | null = open();

async function obey({ publish = [], cut }: Told): Promise<void> {
  for (const { topic, payload, retain = false } of publish) {
    await new Promise<void>((resolve, reject) => {
      broker.publish({ cmd: 'publish', topic, payload: Buffer.from(payload, 'utf8'), qos: 1, retain, dup: false }, (fault) => (fault ? reject(fault) : resolve()));
    });
  }
  if (cut === true) {
    listening?.close();
    listening = null;
    for (const socket of sockets) socket.destroy();
  }
  if (cut === false) listening ??= open();
  else say({ done: true });
}

createInterface({ input: process.stdin }).on('line', (line) => { void obey(JSON.parse(line) as Told); }).on('close', () => process.exit(0));
