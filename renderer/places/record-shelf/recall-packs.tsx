import { useState, type ReactNode } from 'react';
import type { RecallView } from '../../../app/contract/requests/recall.ts';
import type { FoundWhere } from '../../../app/contract/requests/trace-shapes.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';

const text = words.recall;
const WHERES: readonly FoundWhere[] = ['in-store', 'with-them', 'eaten', 'served', 'destroyed', 'not-found'];

type RecallPack = RecallView['recall']['packs'][number];

/** Every pack by where the book has it: scanned one by one, or ticked together. */
export function RecallPacks({ view: { recall } }: { readonly view: RecallView }): ReactNode {
  const found = useCommand('recall.found');
  // Each pack is ticked as the book has it, until somebody says that it was found elsewhere.
  const [where, setWhere] = useState<FoundWhere | 'as-booked'>('as-booked');
  const isOpen = recall.finished === null;
  const mark = async (packIds: readonly string[], as: FoundWhere | null): Promise<boolean> => (await found.send({ recallId: recall.id, packIds: [...packIds], where: as })) !== null;
  return (
    <section className="sheet stack">
      <h2>{text.packs}</h2>
      {isOpen ? (
        <>
          <Choices label={text.foundAs} value={where} choices={[{ id: 'as-booked' as const, text: text.asBooked }, ...WHERES.map((id) => ({ id, text: text.wheres[id] }))]} onChange={setWhere} />
          <ScanPack packs={recall.packs} onFound={(pack) => mark([pack.packId], where === 'as-booked' ? 'in-store' : where)} />
        </>
      ) : null}
      <ProblemNote failure={found.failure} />
      {groupsOf(recall.packs).map(([expected, packs]) => {
        const open = packs.filter((pack) => pack.found === null);
        const as = where === 'as-booked' ? (packs[0]?.bookedAs ?? 'in-store') : where;
        const tickAll = text.tickAll(open.length, text.wheres[as]);
        return (
          <div key={expected} className="stack">
            <div className="spread middle">
              <h3>{packs.length} {expected}</h3>
              {isOpen && open.length > 0 ? <PressButton label={`${expected}: ${tickAll}`} isDisabled={found.busy} onPress={() => { void mark(open.map(({ packId }) => packId), as); }}>{tickAll}</PressButton> : null}
            </div>
            <ul className="recall-packs">
              {packs.map((pack) => <PackLine key={pack.packId} pack={pack} where={as} isOpen={isOpen} onMark={(mine) => { void mark([pack.packId], mine); }} />)}
            </ul>
          </div>
        );
      })}
    </section>
  );
}

function groupsOf(packs: readonly RecallPack[]): [string, RecallPack[]][] {
  const groups = new Map<string, RecallPack[]>();
  for (const pack of packs) groups.set(pack.expected, [...(groups.get(pack.expected) ?? []), pack]);
  return [...groups];
}

interface PackLineProps {
  readonly pack: RecallPack;
  readonly where: FoundWhere;
  readonly isOpen: boolean;
  onMark(as: FoundWhere | null): void;
}

function PackLine({ pack, where, isOpen, onMark }: PackLineProps): ReactNode {
  const formats = useFormats();
  const { found, code, grams } = pack;
  return (
    <li className={`recall-pack${found === null ? '' : found.where === 'not-found' ? ' missing' : ' found'}`}>
      <span>
        <span className="number">{code}</span> {formats.mass(grams)}
        {found === null ? null : <span className="strong"> {text.foundLine(text.wheres[found.where], formats.clock(found.atMs), found.initials)}</span>}
      </span>
      {!isOpen ? null : found === null
        ? <PressButton label={text.tick(code, text.wheres[where])} onPress={() => onMark(where)}>{text.wheres[where]}</PressButton>
        : <PressButton look="quiet" label={text.takeBackOf(code)} onPress={() => onMark(null)}>{text.takeBack}</PressButton>}
    </li>
  );
}

interface ScanPackProps {
  readonly packs: readonly RecallPack[];
  onFound(pack: RecallPack): Promise<boolean>;
}

/** A field that a scanner types into; what it read is cleared for the next one. */
function ScanPack({ packs, onFound }: ScanPackProps): ReactNode {
  const [typed, setTyped] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const find = useCommand('trace.find');
  const take = async (): Promise<void> => {
    const code = typed.trim();
    if (code === '') return;
    const answer = await find.send({ text: code.slice(0, 200) });
    if (answer === null) return;
    const { exact, remark } = answer;
    const pack = exact?.kind === 'pack' ? packs.find(({ packId }) => packId === exact.id) : undefined;
    if (pack === undefined) {
      setFault(remark === '' ? text.notPart(exact?.title ?? code) : remark);
      // A scanner types the next code behind whatever still stands here.
      setTyped('');
      return;
    }
    setFault(null);
    if (await onFound(pack)) setTyped('');
  };
  return (
    <form onSubmit={(event) => { event.preventDefault(); void take(); }}>
      <Field label={text.scan} value={typed} fault={fault} onChange={setTyped} />
      <ProblemNote failure={find.failure} />
    </form>
  );
}
