/** The back room in the bench's own process, so that nothing is measured of threads; requests go in through dispatch. */
import { randomUUID } from 'node:crypto';
import type { Input, Output } from '../../app/contract/contract.ts';
import type { RequestName } from '../../app/contract/names.ts';
import { openBackRoom } from '../../main/backroom/backroom.ts';
import { catalogue } from '../../main/backroom/catalogue.ts';
import { handsInProcess } from '../../main/backroom/hands/hands.ts';
import { services } from '../../main/backroom/services-table.ts';

export interface BenchRoom {
  ask<N extends RequestName>(name: N, input: Input<N>): Promise<Output<N>>;
  close(): Promise<void>;
}

export async function openBenchRoom(bookFile: string): Promise<BenchRoom> {
  const problems: string[] = [];
  const room = await openBackRoom({ bookFile, dataFolder: null, demo: false, version: 'bench' }, {
    services, catalogue, clock: { nowMs: Date.now }, hands: handsInProcess(), announce: () => undefined,
    log: (line) => { if (line.level === 'error') problems.push(line.detail ?? line.what); },
  });
  return {
    async ask(name, input) {
      const reply = await room.ask(name, input, { front: 'window', device: 'this computer', personId: null, commandId: randomUUID() });
      if (!reply.ok) throw new Error(`${name}: ${reply.error.message} ${problems.join('\n')}`);
      // Dispatch has parsed the value by the request's own output schema.
      return reply.value as never;
    },
    close: () => room.close(),
  };
}
