import { useState, type ReactNode } from 'react';
import type { InstrumentState } from '../../../app/contract/requests/evidence.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { MomentField } from '../../parts/moment-field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.instruments;

interface CheckLeafProps {
  readonly state: InstrumentState;
  /** Where the kitchen stands, as the last check in boiling water had it. */
  readonly altitudeMetres: number | null;
  onClose(): void;
}

/** One check: what it shows in ice, and where there is time in boiling water. */
export function CheckLeaf({ state, altitudeMetres, onClose }: CheckLeafProps): ReactNode {
  const { kitchen } = useKitchen();
  const check = useCommand('instrument.check');
  const unit = kitchen.temperatureUnit;
  const [ice, setIce] = useState('');
  const [isBoiling, setIsBoiling] = useState(false);
  const [boiling, setBoiling] = useState('');
  const [altitude, setAltitude] = useState(altitudeMetres === null ? '' : String(altitudeMetres));
  const [pressure, setPressure] = useState('');
  const [atMs, setAtMs] = useState<number | null>(null);
  const typed = (value: string) => (value.trim() === '' ? null : { text: value, unit });
  const send = async (): Promise<void> => {
    const kept = await check.send({
      instrumentId: state.instrument.id, atMs: atMs ?? Date.now(), ice: typed(ice), boiling: isBoiling ? typed(boiling) : null,
      altitudeMetres: isBoiling ? altitude : '', pressureHectopascals: isBoiling ? pressure : '',
    });
    if (kept !== null) onClose();
  };
  return (
    <Leaf title={text.checkTitle(state.instrument.name)} onClose={onClose}>
      <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
        <p className="help">{text.lead}</p>
        <Field label={text.ice} kind="figure" unit={`°${unit}`} value={ice} autoFocus fault={faultOf(check.failure, 'ice.text') ?? faultOf(check.failure, 'ice')} onChange={setIce} />
        {isBoiling ? (
          <>
            <Field label={text.boiling} kind="figure" unit={`°${unit}`} value={boiling} fault={faultOf(check.failure, 'boiling.text') ?? faultOf(check.failure, 'boiling')} onChange={setBoiling} />
            <Field label={text.altitude} kind="figure" unit="m" value={altitude} help={text.altitudeHelp} fault={faultOf(check.failure, 'altitudeMetres')} onChange={setAltitude} />
            <Field label={text.pressure} kind="figure" unit="hPa" value={pressure} help={text.pressureHelp} fault={faultOf(check.failure, 'pressureHectopascals')} onChange={setPressure} />
          </>
        ) : <div><PressButton look="quiet" onPress={() => setIsBoiling(true)}>{text.boilingOpen}</PressButton></div>}
        <MomentField label={text.when} value={atMs} fault={faultOf(check.failure, 'atMs')} onChange={setAtMs} />
        <ProblemNote failure={check.failure} />
        <div className="row">
          <PressButton look="next" type="submit" isDisabled={check.busy}>{text.keep}</PressButton>
          <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
        </div>
      </form>
    </Leaf>
  );
}
