import { useState, type ReactNode } from 'react';
import type { Smoker } from '../../../app/contract/requests/office.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices, Several } from '../../parts/choices.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { readThicknessMm } from '../../parts/thickness.ts';
import { words } from '../../words/words.ts';
import { loadDraft, MOST_MM, pieceRows, rackPlacesOf, readyInput, type PieceRow } from './load-draft.ts';
import { ReadyPanel } from './ready-panel.tsx';

const text = words.smokehouse;

/** Opens a load: smoker, batch, and which thermometer sits in which piece. */
export function OpenLoad(): ReactNode {
  const office = useAsk('office.get', {});
  const batches = useAsk('batch.list', {});
  const loads = useAsk('load.list', {});
  const open = useCommand('load.open');
  const [smokerId, setSmokerId] = useState<string | null>(null);
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [rows, setRows] = useState<readonly PieceRow[] | null>(null);
  const [sent, setSent] = useState(false);
  const waiting = (batches.data?.batches ?? []).filter((batch) => batch.stage === 'drying' && batch.loadId === null);
  const batchIds = chosen ?? (waiting.length === 1 && waiting[0] !== undefined ? [waiting[0].id] : []);
  const smokers = office.data?.smokers ?? [];
  const smoker = smokers.find((each) => each.id === smokerId) ?? null;
  const inUse = (each: Smoker): boolean => (loads.data?.loads ?? []).some((load) => load.smokerId === each.id && load.outAtMs === null);
  const process = waiting.find((batch) => batchIds.includes(batch.id))?.process ?? null;
  const thickest = Math.max(...waiting.filter((batch) => batchIds.includes(batch.id)).map((batch) => batch.thickestMm), 0);
  const shown = rows ?? pieceRows(smoker, thickest, process);
  const setRow = (index: number, change: Partial<PieceRow>): void => setRows(shown.map((row, at) => (at === index ? { ...row, ...change } : row)));
  const send = async (): Promise<void> => {
    setSent(true);
    if (smoker === null || shown.some((row) => readThicknessMm(row.thickness, MOST_MM) === null)) return;
    const answer = await open.send(loadDraft(smoker, batchIds, shown));
    if (answer !== null) go(addressOf('smokehouse', answer.load.id));
  };
  return (
    <>
      <div>
        <h1>{text.openLoad}</h1>
        <p className="soft">{text.openLead}</p>
      </div>
      <section className="sheet stack">
        {waiting.length === 0 ? <p>{text.noBatches} <a href={addressOf('brine-bench')}>{text.toBench}</a></p> : (
          <Several label={text.batches} values={batchIds} choices={waiting.map((batch) => ({ id: batch.id, text: `${batch.shortName} ${batch.marketName}, ${text.processes[batch.process]}` }))} onChange={setChosen} />
        )}
        <Choices
          label={text.smoker}
          value={smokerId}
          choices={smokers.map((each) => ({ id: each.id, text: inUse(each) ? text.busy(each.name) : each.name }))}
          fault={faultOf(open.failure, 'smokerId')}
          onChange={(id) => {
            setSmokerId(id);
            setRows(null);
          }}
        />
        {smoker === null || batchIds.length === 0 ? null : (
          <>
            <h2>{text.pieces}</h2>
            {shown.map((row, index) => (
              <div className="piece-row" key={row.name}>
                <h3>{row.name}</h3>
                <Pick
                  label={text.probe}
                  value={row.instrumentId}
                  empty={text.noProbe}
                  choices={(office.data?.instruments ?? []).map((each) => ({ id: each.id, text: each.name }))}
                  fault={faultOf(open.failure, `pieces.${index}.instrumentId`)}
                  onChange={(instrumentId) => setRow(index, { instrumentId })}
                />
                <Field label={text.thickness} kind="figure" unit="mm" value={row.thickness} fault={sent && readThicknessMm(row.thickness, MOST_MM) === null ? words.parts.thicknessFault(MOST_MM) : faultOf(open.failure, `pieces.${index}.thicknessMm`)} onChange={(thickness) => setRow(index, { thickness })} />
                <Pick label={text.rackPlace} value={row.rackPlace} choices={rackPlacesOf(smoker, process).map((place) => ({ id: place, text: place }))} onChange={(rackPlace) => setRow(index, { rackPlace })} />
              </div>
            ))}
            <ProblemNote failure={open.failure} />
            <div className="row">
              <PressButton look="next" isDisabled={open.busy} onPress={() => { void send(); }}>{text.open}</PressButton>
              <PressButton onPress={() => setRows([...shown, ...pieceRows(smoker, thickest, process, shown.length + 1)])}>{text.addPiece}</PressButton>
            </div>
          </>
        )}
      </section>
      {smoker === null || batchIds.length === 0 ? null : <ReadyPanel asked={readyInput(smoker, batchIds, shown)} />}
    </>
  );
}
