/** What is said of a hand-over beside its packs and its signature. Pure. */
import type { HandOver } from '../../app/contract/requests/packs-where.ts';
import { words } from '../words/words.ts';
import type { Formats } from './format.ts';

const text = words.trace.where;

export function handOverLines(handOver: HandOver, formats: Formats): string[] {
  const { frozenHard, box, travelHours, missed, why, signature } = handOver;
  const facts = [
    `${text.frozen[frozenHard.how]}${frozenHard.ticks === null ? '' : ` (${formats.temperature(frozenHard.ticks)})`}`,
    box === '' ? '' : text.box(box), travelHours === null ? '' : text.travel(travelHours),
  ];
  return [
    `${facts.filter((fact) => fact !== '').join(', ')}.`, ...missed.map((what) => text.missed(what)), why, signature === null ? text.notSigned : text.signed(signature.name),
  ].filter((line) => line !== '');
}
