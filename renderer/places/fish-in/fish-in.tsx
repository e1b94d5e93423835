import type { ReactNode } from 'react';
import { useAsk } from '../../bridge/use-ask.ts';
import { words } from '../../words/words.ts';
import { LotList } from './lot-list.tsx';
import { ReceiveForm } from './receive-form.tsx';

/** Fish in: receive a lot, see what lies there. */
export function FishIn(): ReactNode {
  const lots = useAsk('fishLot.list', {});
  return (
    <>
      <div>
        <h1>{words.fishIn.title}</h1>
        <p className="soft">{words.fishIn.lead}</p>
      </div>
      <div className="columns">
        <ReceiveForm />
        <LotList lots={lots.data?.lots ?? []} />
      </div>
      <p className="foot">{words.fishIn.advisory}</p>
    </>
  );
}
