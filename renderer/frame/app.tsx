import { Suspense, useEffect, useMemo, useState, type ReactNode } from 'react';
import type { Person } from '../../app/contract/requests/office.ts';
import { setPersonOnDuty } from '../bridge/bridge.ts';
import { failureOf, useAsk, useBookEvents } from '../bridge/use-ask.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { WorkMark } from '../places/packing-table/work-mark.tsx';
import { AlarmStrip } from '../places/smokehouse/alarm-strip.tsx';
import { useAddress, type PlaceName } from './address.ts';
import { FirstScreen } from './first-screen.tsx';
import { KitchenContext, useKitchen, type KitchenAtWork } from './kitchen.tsx';
import { PLACE_VIEWS, PrintView } from './place-views.ts';
import { PlacesRail } from './places-rail.tsx';
import { TheLine } from './the-line.tsx';

/** The program: the first screen without a book, the frame with one. */
export function App(): ReactNode {
  useBookEvents();
  const status = useAsk('book.status', {});
  const [onDuty, setOnDuty] = useState<Person | null>(null);
  const data = status.data;
  const atWork = useMemo<KitchenAtWork | null>(() => {
    if (data === undefined || data.kitchen === null) return null;
    const here = data.people.find((person) => person.id === onDuty?.id) ?? null;
    return { kitchen: data.kitchen, people: data.people, onDuty: here, readOnly: data.readOnly, setOnDuty };
  }, [data, onDuty]);
  useEffect(() => setPersonOnDuty(atWork?.onDuty?.id ?? null), [atWork]);
  if (data === undefined) {
    return <main className="place">{status.error === null ? <p>{words.frame.opening}</p> : <ProblemNote failure={failureOf(status.error)} />}</main>;
  }
  if (data.state !== 'open' || atWork === null) return <FirstScreen fault={data.fault} />;
  return (
    <KitchenContext value={atWork}>
      <Shown />
    </KitchenContext>
  );
}

function Top(): ReactNode {
  const { kitchen, readOnly } = useKitchen();
  return (
    <header className="top">
      <TheLine />
      <AlarmStrip />
      <WorkMark />
      {kitchen.demo ? <p className="invented">{words.frame.invented}</p> : null}
      {readOnly ? <p className="invented">{words.frame.readOnly}</p> : null}
    </header>
  );
}

function Shown(): ReactNode {
  const address = useAddress();
  if (address.place === 'print') {
    return (
      <Suspense fallback={<p>{words.frame.loading}</p>}>
        <PrintView />
      </Suspense>
    );
  }
  const View = PLACE_VIEWS[address.place];
  const here = [address.place, ...address.rest].join('/');
  return <Frame place={address.place} here={here}><View key={address.place} /></Frame>;
}

/** A new page begins at its top: mounted anew for each, by its key. */
function FromTheTop(): ReactNode {
  useEffect(() => {
    window.scrollTo(0, 0);
  }, []);
  return null;
}

/** The frame of every place. */
function Frame({ place, here, children }: { readonly place: PlaceName; readonly here: string; readonly children: ReactNode }): ReactNode {
  return (
    <div className="frame">
      <FromTheTop key={here} />
      <PlacesRail place={place} />
      <Top />
      <main className="place">
        <Suspense fallback={<p>{words.frame.loading}</p>}>
          {children}
        </Suspense>
      </main>
    </div>
  );
}
