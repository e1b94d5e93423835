/** Makes the demonstration kitchen: its office and a little history, by the program's own requests in the order they happened. */
import historyData from '../../../../assets/demo/history.json' with { type: 'json' };
import kitchenData from '../../../../assets/demo/kitchen.json' with { type: 'json' };
import { DemoHistoryAsset, DemoKitchenAsset } from '../../../../app/contract/assets-demo.ts';
import type { Person } from '../../../../app/contract/requests/office.ts';
import type { BookRoom } from '../../room.ts';
import { beginBook } from '../new-book.ts';
import { askService } from './ask-service.ts';
import { keptNames } from './kept-names.ts';
import { momentMs } from './moments.ts';
import { stepsInOrder } from './steps-in-order.ts';

/**
 * Fills a new book. Every entry is made at the time it is said to have happened, by the person named.
 * @param at gives a room whose clock stands at a time, with a person on duty
 * @param nowMs when the kitchen is opened; its history lies before it
 */
export function fillDemoBook(at: (nowMs: number, person: Person | null) => BookRoom, nowMs: number): void {
  const { begun, kitchen, people, equipment } = DemoKitchenAsset.parse(kitchenData);
  const history = DemoHistoryAsset.parse(historyData);
  const { timeZone } = kitchen;
  const crew = beginBook(at(momentMs(begun, nowMs, timeZone), null), { kitchen: { ...kitchen, demo: true }, people });
  const names = keptNames(nowMs, timeZone);
  const steps = stepsInOrder({ ...history, steps: [...equipment, ...history.steps] }, nowMs, timeZone);
  for (const step of steps) {
    const person = crew.find((candidate) => candidate.initials === step.by);
    if (person === undefined) throw new Error(`the demonstration kitchen has nobody called ${step.by}`);
    const answer = askService(at(step.atMs, person), step.ask, names.resolve(step.input));
    if (step.keep !== undefined) names.keep(step.keep, answer);
  }
}
