import { useState, type ReactNode } from 'react';
import { TraceStartKind } from '../../../app/contract/requests/trace.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { addressOf, go } from '../../frame/address.ts';
import { PressButton } from '../../parts/button.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { ShelfHead } from './shelf-head.tsx';
import { TraceList } from './trace-list.tsx';
import { TracePictureView } from './trace-picture-view.tsx';

const text = words.trace;

/** One trace as a picture and as a list, and the way to a recall of what it reaches. */
export function TracePage({ kind, id }: { readonly kind: string; readonly id: string }): ReactNode {
  const start = TraceStartKind.safeParse(kind);
  const answer = useAsk('trace.get', start.success ? { kind: start.data, id } : null);
  const { data } = answer;
  return (
    <>
      <ShelfHead title={text.title(data?.title ?? '')} lead={data === undefined ? null : text.lead(data.packs)} here={null} />
      <ProblemNote failure={failureOf(answer.error)} />
      {data === undefined || !start.success ? null : (
        <>
          <RecallButtons kind={start.data} id={id} title={data.title} />
          <TracePictureView nodes={data.nodes} edges={data.edges} />
          <TraceList nodes={data.nodes} />
        </>
      )}
    </>
  );
}

function RecallButtons({ kind, id, title }: { readonly kind: TraceStartKind; readonly id: string; readonly title: string }): ReactNode {
  const start = useCommand('recall.start');
  const [asking, setAsking] = useState(false);
  const begin = async (isDrill: boolean): Promise<void> => {
    const begun = await start.send({ isDrill, kind, id });
    if (begun !== null) go(addressOf('record-shelf', 'recall', begun.recall.id));
  };
  return (
    <>
      <div className="row">
        <PressButton look="next" isDisabled={start.busy} onPress={() => { void begin(true); }}>{text.drill}</PressButton>
        <PressButton onPress={() => setAsking(true)}>{text.recall}</PressButton>
      </div>
      <ProblemNote failure={start.failure} />
      {asking ? (
        <Leaf title={text.recallSure(title)} onClose={() => setAsking(false)}>
          <p>{text.recallHolds}</p>
          <div className="row">
            <PressButton isDisabled={start.busy} onPress={() => { void begin(false); }}>{text.recallYes}</PressButton>
            <PressButton onPress={() => setAsking(false)}>{words.parts.cancel}</PressButton>
          </div>
          <ProblemNote failure={start.failure} />
        </Leaf>
      ) : null}
    </>
  );
}
