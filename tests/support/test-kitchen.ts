/**
 * A whole back room on a book of its own, with a clock that the test sets: requests go in through
 * dispatch, exactly as from a front.
 */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { Reply } from '../../app/contract/envelope.ts';
import type { Subject } from '../../app/contract/events.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { type BackRoom, openBackRoom } from '../../main/backroom/backroom.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { handsInProcess } from '../../main/backroom/hands/hands.ts';
import type { LogLine } from '../../main/backroom/log.ts';
import { services } from '../../main/backroom/services-table.ts';

/** 25 November 2026, 14:00 UTC: 08:00 in the test kitchen. */
export const KITCHEN_NOW_MS = Date.UTC(2026, 10, 25, 14);

export interface TestKitchenOptions {
  /** The demonstration kitchen; otherwise a small kitchen of its own with a manager MG, a chef CH and a hand HA. */
  readonly demo?: boolean;
  /** No book yet. */
  readonly empty?: boolean;
  /** A file that lies there already, opened as it is; nothing is made, and its folder is the test's own. */
  readonly bookFile?: string;
  readonly nowMs?: number;
  /** Opens the live feeds that are on; the clock goes on by itself then. */
  readonly runsFeeds?: boolean;
}

export interface TestKitchen {
  /**
   * Asks and answers the value; throws with the failure's code and message when it was refused.
   * @param as initials of the person who acts; the kitchen's first manager when left out
   */
  ask<N extends RequestName>(name: N, input: Input<N>, as?: string): Promise<Output<N>>;
  /** As `ask`, but answers the whole envelope: for what should be refused. `as: null` is nobody. */
  reply<N extends RequestName>(name: N, input: Input<N>, as?: string | null): Promise<Reply<Output<N>>>;
  /** Puts a file into the inbox and answers its id. */
  takeFile(fileName: string, content: string | Uint8Array): Promise<string>;
  readonly clock: { nowMs(): number; set(ms: number): void; advance(ms: number): void };
  /** What was announced since the last call, in order. */
  announced(): { subject: Subject; ids: readonly string[] }[];
  /** The log lines of failures of ours; a test that expects none may look. */
  readonly faults: readonly LogLine[];
  /** The book's file. */
  readonly file: string;
  close(): Promise<void>;
}

const OWN_KITCHEN = {
  kitchen: {
    name: 'Test Kitchen',
    address: { street: '1 Dock Road', city: 'Rainy Point', region: 'Minnesota', postalCode: '56600' },
    timeZone: 'America/Chicago',
    temperatureUnit: 'F',
    massUnit: 'lb',
    kind: 'food-service',
    decidingSetId: 'lodge-default',
  },
  people: [
    { initials: 'MG', name: 'Maja Grant', role: 'manager' },
    { initials: 'CH', name: 'Cal Hurst', role: 'chef' },
    { initials: 'HA', name: 'Hana Aho', role: 'hand' },
  ],
} as const;

/** Opens a kitchen in a folder of its own; both are gone when the test is over. */
export async function openTestKitchen({ demo = false, empty = false, bookFile, nowMs = KITCHEN_NOW_MS, runsFeeds = false }: TestKitchenOptions = {}): Promise<TestKitchen> {
  const folder = mkdtempSync(join(tmpdir(), 'alderbook-kitchen-'));
  const file = bookFile ?? join(folder, 'kitchen.alderbook');
  const faults: LogLine[] = [];
  const startedMs = performance.now();
  const goneOnMs = () => (runsFeeds ? Math.round(performance.now() - startedMs) : 0);
  let now = nowMs;
  let heard: { subject: Subject; ids: readonly string[] }[] = [];
  const room = await openBackRoom({ bookFile: file, dataFolder: null, demo: false, version: '0.0.0-test', runsFeeds }, {
    services,
    catalogue,
    clock: { nowMs: () => now + goneOnMs() },
    hands: handsInProcess(),
    log: (line) => {
      if (line.level === 'error') faults.push(line);
    },
    announce: (subject, ids) => heard.push({ subject, ids }),
  });
  onTestFinished(async () => {
    await room.close();
    rmSync(folder, { recursive: true, force: true });
  });

  async function reply<N extends RequestName>(name: N, input: Input<N>, as?: string | null): Promise<Reply<Output<N>>> {
    const personId = as === null ? null : await personIdOf(room, as);
    const answered = await room.ask(name, input, { front: 'browser', device: 'this computer', personId, commandId: randomUUID() });
    const fault = faults.at(-1);
    if (!answered.ok && answered.error.code === 'INTERNAL') throw new Error(`${name} failed: ${fault?.detail ?? 'no detail'}`);
    // Dispatch has parsed the value by the request's own output schema.
    return answered as Reply<Output<N>>;
  }
  async function ask<N extends RequestName>(name: N, input: Input<N>, as?: string): Promise<Output<N>> {
    const answered = await reply(name, input, as);
    if (answered.ok) return answered.value;
    throw new Error(`${name} was refused: ${answered.error.code} ${answered.error.message} ${answered.error.remedy ?? ''}`.trim());
  }

  if (demo) await ask('book.openDemo', {});
  else if (!empty && bookFile === undefined) await ask('book.start', { kitchen: { ...OWN_KITCHEN.kitchen }, people: OWN_KITCHEN.people.map((person) => ({ ...person })) });
  heard = [];
  return {
    ask,
    reply,
    async takeFile(fileName, content) {
      const taken = await room.takeFile(fileName, typeof content === 'string' ? new TextEncoder().encode(content) : content);
      if (taken.ok) return taken.value.fileId;
      throw new Error(`${fileName} was refused: ${taken.error.message}`, { cause: taken.error });
    },
    clock: {
      nowMs: () => now + goneOnMs(),
      set: (ms) => {
        now = ms - goneOnMs();
      },
      advance: (ms) => {
        now += ms;
      },
    },
    announced() {
      const all = heard;
      heard = [];
      return all;
    },
    faults,
    file,
    close: () => room.close(),
  };
}

/** The id of a person by initials; the first manager's when none are given; null while there is no book. */
async function personIdOf(room: BackRoom, initials: string | undefined): Promise<string | null> {
  const status = await room.ask('book.status', {}, { front: 'browser', device: 'this computer', personId: null, commandId: null });
  if (!status.ok) return null;
  const { people } = status.value as Output<'book.status'>;
  const found = people.find((person) => (initials === undefined ? person.role === 'manager' : person.initials === initials));
  if (found === undefined && initials !== undefined) throw new Error(`Nobody in this kitchen has the initials ${initials}.`);
  return found?.id ?? null;
}
