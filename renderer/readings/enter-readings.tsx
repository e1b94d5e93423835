import { useState, type ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import type { Need, NextReading, Point } from '../../app/contract/requests/smokehouse.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { PressButton } from '../parts/button.tsx';
import { Choices } from '../parts/choices.tsx';
import { Field, Pick } from '../parts/field.tsx';
import { Leaf } from '../parts/leaf.tsx';
import { MomentField } from '../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { nextEmpty, press, type Key, type Typed } from './enter-draft.ts';
import { EnterKeypad } from './enter-keypad.tsx';
import { EnterPiece } from './enter-piece.tsx';
import { EnterTimer } from './enter-timer.tsx';
import { TypedTwice } from './enter-twice.tsx';
import { useLastRead } from './enter-trend.ts';
import './enter.css';

const text = words.smokehouse.entry;
const quick = words.paper.entry;

interface EnterReadingsProps {
  readonly points: readonly Point[];
  readonly needs: readonly Need[];
  readonly next?: readonly NextReading[];
  onClose(): void;
}

/** One round of readings, one piece after another; stays open for the next round, and hears what another screen keeps. */
export function EnterReadings({ points, needs, next = [], onClose }: EnterReadingsProps): ReactNode {
  const { kitchen } = useKitchen();
  const office = useAsk('office.get', {});
  const enter = useCommand('readings.enter');
  const pointIds = points.map((point) => point.id);
  const lastRead = useLastRead(pointIds);
  const [values, setValues] = useState<Typed>({});
  const [activeId, setActiveId] = useState(pointIds[0] ?? '');
  const [atMs, setAtMs] = useState<number | null>(null);
  const [instrumentId, setInstrumentId] = useState('');
  const [how, setHow] = useState<'by-hand' | 'copied-from-paper'>('by-hand');
  const [sheet, setSheet] = useState('');
  const [kept, setKept] = useState<{ readonly answer: Output<'readings.enter'>; readonly round: number } | null>(null);
  const [nothing, setNothing] = useState(false);
  const isPaper = how === 'copied-from-paper';
  const typed = points.filter((point) => (values[point.id] ?? '').trim() !== '');
  const send = async (): Promise<void> => {
    setNothing(typed.length === 0);
    if (typed.length === 0) return;
    const moment = atMs ?? Date.now();
    const answer = await enter.send({
      how,
      ...(isPaper && sheet.trim() !== '' ? { sheet: sheet.trim() } : {}),
      readings: typed.map((point) => ({
        pointId: point.id,
        atMs: moment,
        value: { text: values[point.id] ?? '', unit: kitchen.temperatureUnit },
        instrumentId: instrumentId === '' ? point.instrumentId : instrumentId,
      })),
    });
    if (answer === null) return;
    setKept({ answer, round: (kept?.round ?? 0) + 1 });
    setValues({});
    setActiveId(pointIds[0] ?? '');
  };
  const goOn = (): void => setActiveId(nextEmpty(pointIds, values, activeId) ?? activeId);
  /** Enter goes from piece to piece; with none left it keeps the round. */
  const enterKey = (): void => {
    if (nextEmpty(pointIds, values, activeId) === null) void send();
    else goOn();
  };
  const key = (pressed: Key): void => setValues({ ...values, [activeId]: press(values[activeId] ?? '', pressed) });
  return (
    <Leaf title={text.title} wide onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="soft">{text.lead}</p>
        <EnterTimer next={next.filter((each) => each.pointId === null || pointIds.includes(each.pointId))} />
        <div className="enter-round">
          <div className="enter-pieces">
            {points.map((point) => {
              const need = needs.find((each) => each.pointId === point.id);
              const at = typed.indexOf(point);
              const last = lastRead.get(point.id) ?? (need === undefined || need.lastTicks === null || need.lastAtMs === null ? undefined : { atMs: need.lastAtMs, ticks: need.lastTicks, ticksAnHour: null });
              return (
                <EnterPiece
                  key={point.id} name={point.name} value={values[point.id] ?? ''} last={last} isActive={point.id === activeId}
                  fault={at < 0 ? null : (faultOf(enter.failure, `readings.${at}.value.text`) ?? faultOf(enter.failure, `readings.${at}.value`))}
                  onChange={(value) => setValues({ ...values, [point.id]: value })} onActive={() => setActiveId(point.id)} onEnter={enterKey}
                />
              );
            })}
          </div>
          <EnterKeypad onKey={key} onNext={goOn} />
        </div>
        <MomentField key={kept?.round ?? 'first'} label={isPaper ? quick.readAt : text.when} value={null} fault={faultOf(enter.failure, 'readings.0.atMs')} onChange={setAtMs} />
        <div className="row">
          <Pick label={text.instrument} value={instrumentId} empty={text.own} choices={(office.data?.instruments ?? []).map((each) => ({ id: each.id, text: each.name }))} onChange={setInstrumentId} />
          <Choices label={text.how} value={how} choices={[{ id: 'by-hand', text: text.byHand }, { id: 'copied-from-paper', text: text.fromPaper }]} onChange={setHow} />
          {isPaper ? <Field label={quick.sheet} value={sheet} help={quick.bothTimes} fault={faultOf(enter.failure, 'sheet')} onChange={setSheet} /> : null}
        </div>
        {nothing ? <p className="fault" role="alert">{text.nothing}</p> : null}
        {kept === null ? null : <p className="strong" role="status">{text.kept(kept.answer.kept)}</p>}
        {kept === null ? null : <TypedTwice answer={kept.answer} points={points} />}
        <ProblemNote failure={enter.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={enter.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.close}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
