/** Devices and brokers for tests, each in a process of its own on a free port of this computer. */
import { spawn } from 'node:child_process';
import path from 'node:path';
import { createInterface } from 'node:readline';

const START_LIMIT_MS = 15_000;

export interface Said {
  readonly port?: number;
  readonly done?: boolean;
  /** Of the device: how often it was asked. */
  readonly asked?: number;
  /** Of the broker: how many messages were acknowledged, and how often somebody began to listen. */
  readonly acknowledged?: number;
  readonly listeners?: number;
}

export interface Sender {
  readonly port: number;
  /** Tells it something and waits until it is done; answers what it says then. */
  tell(what: object): Promise<Said>;
  stop(): Promise<void>;
}

/** Starts `modbus-device.ts` or `mqtt-broker.ts`. */
export async function startSender(file: 'modbus-device.ts' | 'mqtt-broker.ts', ...values: readonly string[]): Promise<Sender> {
  const child = spawn(process.execPath, [path.join(import.meta.dirname, file), ...values], { stdio: ['pipe', 'pipe', 'pipe'] });
  const exited = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const waiting: ((said: Said) => void)[] = [];
  let complaints = '';
  child.stderr.on('data', (bytes: Buffer) => { complaints += bytes.toString(); });
  createInterface({ input: child.stdout }).on('line', (line) => waiting.shift()?.(JSON.parse(line) as Said));
  function hear(): Promise<Said> {
    const { promise, resolve, reject } = Promise.withResolvers<Said>();
    const limit = setTimeout(() => reject(new Error(`${file} said nothing. ${complaints}`)), START_LIMIT_MS);
    waiting.push((said) => {
      clearTimeout(limit);
      resolve(said);
    });
    return promise;
  }
  const { port = 0 } = await hear();
  return {
    port,
    tell(what) {
      const heard = hear();
      child.stdin.write(`${JSON.stringify(what)}\n`);
      return heard;
    },
    async stop() {
      child.stdin.end();
      const limit = setTimeout(() => child.kill('SIGKILL'), 3000);
      await exited;
      clearTimeout(limit);
    },
  };
}
