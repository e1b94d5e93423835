/** What the record says before a load is lit: the thermometers' checks, the brine, and the fish before it. */
import type { ReadyItem } from '../../../app/contract/requests/corrective.ts';
import type { CheckResultWire, SetResultWire } from '../../../app/contract/requests/verdict.ts';
import type { BookRoom } from '../room.ts';
import { stateOf } from './instruments.ts';
import { judgeBatch } from './judging/judge-batch.ts';
import { isReady, type LoadPlan } from './ready-plan.ts';

/** The thermometers of this load, each checked in ice today and at two points within the year. */
export function checksItem(room: BookRoom, { smoker, pieces }: LoadPlan): ReadyItem {
  const ids = [...new Set([...pieces.map((piece) => piece.instrumentId), smoker.chamberInstrumentId])].filter((id) => id !== null);
  const unnamed = pieces.filter((piece) => piece.instrumentId === null).length;
  if (ids.length === 0) {
    return { id: 'checks', state: 'unknown', text: 'No thermometer is named for this load.', needed: 'Name the thermometers, and check each in ice before the load is lit.' };
  }
  const states = ids.map((id) => stateOf(room, room.book.shelf('instruments').need(id)));
  const due = states.filter((state) => state.dueToday).map(({ instrument }) => instrument.name);
  const overdue = states.filter((state) => state.overdue).map(({ instrument }) => instrument.name);
  const bad = states.filter((state) => state.checks[0]?.pastCorrecting === true).map(({ instrument }) => instrument.name);
  const said = [
    bad.length === 0 ? '' : `Off by too much to be corrected: ${bad.join(', ')}.`,
    due.length === 0 ? '' : `Not checked in ice today: ${due.join(', ')}.`,
    overdue.length === 0 ? '' : `Without a check at two points within 12 months: ${overdue.join(', ')}.`,
    unnamed === 0 ? '' : `${unnamed} ${unnamed === 1 ? 'piece has' : 'pieces have'} no thermometer named.`,
  ].filter((text) => text !== '');
  if (said.length === 0) return isReady('checks', `Checked in ice today: ${states.map(({ instrument }) => instrument.name).join(', ')}.`);
  return {
    id: 'checks', state: bad.length > 0 || due.length > 0 || overdue.length > 0 ? 'missing' : 'unknown', text: said.join(' '),
    needed: bad.length > 0 ? 'Use another thermometer in its place.' : due.length > 0 || overdue.length > 0 ? 'Put each into ice and water, stir, and enter what it shows under Office, Thermometers.' : 'Name the thermometers.',
  };
}

const QUESTIONS: Readonly<Record<'brine' | 'raw', readonly CheckResultWire['question'][]>> = { brine: ['brine'], raw: ['raw', 'thaw', 'dry'] };
const WHAT = { brine: 'brining', raw: 'the fish before the brine and of drying' } as const;
/** Where the set asks something that no record here answers yet. */
const LOOK = { brine: 'Look at the record of the soak.', raw: 'Look at when the fish was caught, iced and received, and how cold it was.' } as const;

/** The limits on the brine and on the fish before it, by the batches' deciding sets. */
export function limitItems(room: BookRoom, { batches }: LoadPlan): ReadyItem[] {
  const judged = batches.map((batch) => ({ name: batch.shortName, result: judgeBatch(room, batch).deciding }));
  return [limitItem('brine', judged), limitItem('raw', judged)];
}

function limitItem(id: 'brine' | 'raw', judged: readonly { readonly name: string; readonly result: SetResultWire }[]): ReadyItem {
  const questions: readonly string[] = QUESTIONS[id];
  const asked = judged.flatMap(({ name, result }) => result.checks.filter((check) => questions.includes(check.question) && check.verdict !== 'does-not-apply').map((check) => ({ name, check })));
  const left = asked.filter(({ check }) => check.verdict !== 'meets' && check.verdict !== 'meets-within-error');
  if (left.length > 0) {
    return {
      id, state: left.some(({ check }) => check.verdict === 'misses') ? 'missing' : 'unknown',
      text: left.map(({ name, check }) => `${name}: ${check.reason}`).join(' '),
      needed: left.map(({ check }) => check.needed).filter((text, index, all) => text !== '' && all.indexOf(text) === index).join(' ') || LOOK[id],
    };
  }
  const unjudged = judged.some(({ result }) => result.notJudgedHere.some((question) => questions.includes(question)));
  if (unjudged) return { id, state: 'unknown', text: `What the set asks of ${WHAT[id]} is not judged here.`, needed: LOOK[id] };
  return isReady(id, asked.length === 0 ? `The set asks nothing of ${WHAT[id]}.` : `The record meets what is asked of ${WHAT[id]}.`);
}
