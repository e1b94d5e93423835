import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { FigureChange } from '../../../app/contract/requests/limits-office.ts';
import type { SetInfo } from '../../../app/contract/requests/limits.ts';
import { localDay } from '../../../app/measures/zone.ts';
import { useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go, useAddress } from '../../frame/address.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Field, Pick } from '../../parts/field.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { ChangedFigures } from './changed-figures.tsx';
import { FigureFields } from './figure-fields.tsx';

const text = words.office.limitsPages;
const LETTERS = ['limit-letter', 'process-letter', 'variance'];

interface SetFormProps {
  readonly sets: readonly SetInfo[];
  readonly own: Output<'limits.own'>;
}

/** Makes a set of the kitchen's own, or the next version of one: a base, changed figures, and what they rest on. */
export function SetForm({ sets, own }: SetFormProps): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const from = useAddress().query.get('from') ?? '';
  const add = useCommand('limits.addSet');
  const papers = useAsk('paper.list', {}).data?.papers ?? [];
  const [baseSetId, setBaseSetId] = useState(from === '' ? own.decidingFor.guest : from);
  const [name, setName] = useState(own.sets.find((set) => set.setId === from)?.name ?? '');
  const [effectiveFrom, setEffectiveFrom] = useState(() => localDay(Date.now(), kitchen.timeZone));
  const [paperId, setPaperId] = useState('');
  const [changes, setChanges] = useState<readonly FigureChange[]>([]);
  const base = sets.find((set) => set.setId === baseSetId);
  const letters = papers.filter((paper) => LETTERS.includes(paper.kind) && paper.struck === null);
  const figuresFault = add.failure?.fields?.find((fault) => fault.path[0] === 'changes')?.message ?? null;
  const send = async (): Promise<void> => {
    const made = await add.send({ baseSetId, name, effectiveFrom, paperId: paperId === '' ? null : paperId, changes: [...changes] });
    if (made !== null) go(addressOf('office', 'limits'));
  };
  return (
    <section className="sheet stack">
      <a className="set-link" href={addressOf('office', 'limits')}>{text.allSets}</a>
      <h2>{text.makeTitle}</h2>
      <p className="soft">{text.makeLead}</p>
      {onDuty?.role === 'manager' ? null : <p className="help">{text.needManager}</p>}
      <div className="form-grid">
        <Pick
          label={text.base} value={baseSetId} fault={faultOf(add.failure, 'baseSetId')}
          choices={sets.map((set) => ({ id: set.setId, text: `${set.name}, ${words.office.version(set.version)}` }))}
          onChange={(id) => { setBaseSetId(id); setChanges([]); }}
        />
        <Field label={text.name} value={name} help={text.nameHelp} fault={faultOf(add.failure, 'name')} onChange={setName} />
        <Field label={text.effectiveFrom} kind="date" value={effectiveFrom} fault={faultOf(add.failure, 'effectiveFrom')} onChange={setEffectiveFrom} />
        <Pick label={text.letter} value={paperId} empty={text.noLetter} fault={faultOf(add.failure, 'paperId')} choices={letters.map((paper) => ({ id: paper.id, text: `${paper.what}, ${paper.number}` }))} onChange={setPaperId} />
      </div>
      {base === undefined ? null : (
        <FigureFields
          key={baseSetId} set={base} figures={own.figures}
          onTake={(taken) => setChanges([...changes.filter((change) => !taken.some((one) => one.checkId === change.checkId)), ...taken])}
        />
      )}
      <ChangedFigures changes={changes} figures={own.figures} fault={figuresFault} onDrop={(checkId) => setChanges(changes.filter((change) => change.checkId !== checkId))} />
      <ProblemNote failure={add.failure} />
      <div className="row">
        <PressButton look="next" isDisabled={add.busy || changes.length === 0} onPress={() => { void send(); }}>{text.make}</PressButton>
        {changes.length === 0 ? <span className="soft">{text.nothing}</span> : null}
      </div>
    </section>
  );
}
