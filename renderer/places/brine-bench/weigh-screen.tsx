import { useState, type ReactNode } from 'react';
import { Dialog, Modal, ModalOverlay } from 'react-aria-components';
import type { Batch, CardLine } from '../../../app/contract/requests/brine-bench.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { scaleGrams } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { useWeighed, type Weighed } from './use-weighed.ts';
import { nextPlace } from './weigh-state.ts';

const text = words.brineBench.weigh;
const bench = words.brineBench;

/** Weighing by a propped-up tablet: one ingredient fills the screen, one large button says that it is in. */
export function WeighScreen({ batch }: { readonly batch: Batch }): ReactNode {
  const { card } = batch;
  const weighed = useWeighed(batch);
  const ids = card.lines.map((line) => line.ingredientId);
  const [place, setPlace] = useState(() => nextPlace(ids, weighed.ids, 0));
  const leave = (): void => go(addressOf('brine-bench', batch.id));
  const line = card.lines[place];
  const leftCount = ids.filter((id) => !weighed.ids.has(id)).length;
  const tick = (isWeighed: boolean): void => {
    if (line === undefined) return;
    weighed.set(line.ingredientId, isWeighed);
    if (isWeighed) setPlace(nextPlace(ids, new Set([...weighed.ids, line.ingredientId]), place));
  };
  return (
    <ModalOverlay className="whole-screen" isOpen onOpenChange={(isOpen) => { if (!isOpen) leave(); }}>
      <Modal className="whole-leaf">
        <Dialog className="weigh" aria-label={text.open}>
          <header className="spread middle">
            <div>
              <h1>{text.title(card.recipeName, batch.shortName)}</h1>
              <p className="soft" role="status">{line === undefined ? '' : `${text.place(place + 1, ids.length)}, `}{leftCount === 0 ? text.noneLeft : text.left(leftCount)}</p>
            </div>
            <PressButton onPress={leave}>{text.leave}</PressButton>
          </header>
          {line === undefined
            ? <WeighEnd batch={batch} weighed={weighed} onGo={setPlace} />
            : <OneLine line={line} isWeighed={weighed.ids.has(line.ingredientId)} onTick={tick} />}
          <footer className="weigh-feet">
            <PressButton isDisabled={place === 0} onPress={() => setPlace(place - 1)}>{text.back}</PressButton>
            <PressButton isDisabled={line === undefined} onPress={() => setPlace(place + 1)}>{text.next}</PressButton>
          </footer>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

interface OneLineProps {
  readonly line: CardLine;
  readonly isWeighed: boolean;
  onTick(isWeighed: boolean): void;
}

function OneLine({ line, isWeighed, onTick }: OneLineProps): ReactNode {
  const shown = scaleGrams(line.grams);
  return (
    <>
      <section className="weigh-one" aria-live="polite">
        <h2>{line.name}</h2>
        <p className="weigh-figure"><span className="number">{shown.figure}</span> {shown.unit}</p>
        <p className="weigh-measure">{[line.household, line.remark].filter((part) => part !== '').join('; ')}</p>
      </section>
      {isWeighed ? (
        <div className="weigh-done">
          <p className="strong">{text.isWeighed}</p>
          <PressButton onPress={() => onTick(false)}>{text.undo}</PressButton>
        </div>
      ) : <div className="weigh-done"><PressButton look="next" onPress={() => onTick(true)}>{text.done}</PressButton></div>}
    </>
  );
}

interface EndProps {
  readonly batch: Batch;
  readonly weighed: Weighed;
  onGo(place: number): void;
}

/** What the tub must be now; and what was passed over. */
function WeighEnd({ batch, weighed, onGo }: EndProps): ReactNode {
  const { card } = batch;
  const open = card.lines.flatMap((line, index) => (weighed.ids.has(line.ingredientId) ? [] : [{ line, index }]));
  return (
    <section className="weigh-one" aria-live="polite">
      <h2>{open.length === 0 ? text.endTitle : text.endOpen}</h2>
      {open.length === 0 ? null : (
        <div className="row">{open.map(({ line, index }) => <PressButton key={line.ingredientId} onPress={() => onGo(index)}>{line.name}</PressButton>)}</div>
      )}
      {card.cure === 'dry' ? <p className="weigh-measure">{text.mixDry}</p> : (
        <>
          <p className="weigh-figure"><span className="number">{card.salometerDegrees.toFixed(1)}</span> {bench.salometer}</p>
          <p className="weigh-measure"><span className="number">{card.percentByWeight.toFixed(2)} %</span> {bench.byWeight}</p>
          <p className="weigh-measure strong">{bench.float(card.floatShowsDegrees.toFixed(0))}</p>
          <p className="weigh-measure">{text.mix}</p>
        </>
      )}
    </section>
  );
}
