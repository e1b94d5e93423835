/** The names that the data of the demonstration kitchen gives to ids which exist only once a request was answered. */
import { DemoMoment } from '../../../../app/contract/assets-demo.ts';
import { momentMs } from './moments.ts';
import type { DemoAnswer } from './ask-service.ts';

export interface KeptNames {
  /** Keeps the id of an answer under a name. */
  keep(name: string, answer: DemoAnswer): void;
  /** The same input with every `@name` replaced by its id and every moment by its instant. */
  resolve(input: unknown): unknown;
}

/** Names of one book, and the moments before `nowMs` in its zone. */
export function keptNames(nowMs: number, timeZone: string): KeptNames {
  const kept = new Map<string, string | readonly string[]>();
  function named(name: string): string | readonly string[] {
    const id = kept.get(name);
    if (id === undefined) throw new Error(`nothing in the demonstration kitchen is called ${name} yet`);
    return id;
  }
  function resolve(input: unknown): unknown {
    if (typeof input === 'string') return input.startsWith('@') ? named(input.slice(1)) : input;
    if (Array.isArray(input)) return input.map(resolve);
    if (typeof input !== 'object' || input === null) return input;
    const moment = DemoMoment.safeParse(input);
    if (moment.success) return momentMs(moment.data, nowMs, timeZone);
    return Object.fromEntries(Object.entries(input).map(([key, value]) => [key, resolve(value)]));
  }
  return {
    keep(name, answer) {
      if ('id' in answer) kept.set(name, answer.id);
      else if ('lot' in answer) kept.set(name, answer.lot.id);
      else if ('batch' in answer) kept.set(name, answer.batch.id);
      else if ('packs' in answer) {
        kept.set(name, answer.packs.map((pack) => pack.id));
        for (const pack of answer.packs) kept.set(`${name}/${pack.serial}`, pack.id);
      } else if ('guest' in answer) kept.set(name, answer.guest.id);
      else if ('tray' in answer) kept.set(name, answer.tray.id);
      else if ('recipe' in answer) kept.set(name, answer.recipe.id);
      else if ('ingredient' in answer) kept.set(name, answer.ingredient.id);
      else if ('tasting' in answer) kept.set(name, answer.tasting.id);
      else if ('load' in answer) {
        kept.set(name, answer.load.id);
        for (const point of answer.load.points) kept.set(`${name}/${point.name}`, point.id);
      } else throw new Error(`the answer kept as ${name} has no id`);
    },
    resolve,
  };
}
