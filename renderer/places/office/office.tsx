import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { Backup } from './backup.tsx';
import { ColdPlaces } from './cold-places.tsx';
import { FeedsPage } from './feeds-page.tsx';
import { Instruments } from './instruments.tsx';
import { KitchenPage } from './kitchen-page.tsx';
import { LabelPage } from './label-page.tsx';
import { LimitsPage } from './limits-page.tsx';
import './office.css';
import { PapersPage } from './papers-page.tsx';
import { People } from './people.tsx';
import { Smokers } from './smokers.tsx';

const text = words.office;
const SECTIONS = ['people', 'thermometers', 'smokers', 'places', 'feeds', 'papers', 'limits', 'labels', 'kitchen', 'backup'] as const;
type Section = (typeof SECTIONS)[number];

/** The office: one part at a time, each with an address of its own. */
export function Office(): ReactNode {
  const { rest } = useAddress();
  const [first, ...more] = rest;
  const section = SECTIONS.find((name) => name === first) ?? 'people';
  return (
    <>
      <div className="spread middle">
        <h1>{text.title}</h1>
        <nav className="page-links" aria-label={text.index}>
          {SECTIONS.map((name) => (
            <a key={name} href={addressOf('office', name)} aria-current={name === section ? 'page' : undefined}>{text.sections[name]}</a>
          ))}
        </nav>
      </div>
      <OfficeSection section={section} more={more} />
    </>
  );
}

function OfficeSection({ section, more }: { readonly section: Section; readonly more: readonly string[] }): ReactNode {
  switch (section) {
    case 'feeds': return <FeedsPage />;
    case 'papers': return <PapersPage />;
    case 'limits': return <LimitsPage page={more[0]} />;
    case 'labels': return <LabelPage />;
    case 'kitchen': return <KitchenPage />;
    case 'backup': return <Backup />;
    case 'people': case 'thermometers': case 'smokers': case 'places': return <Equipment section={section} />;
  }
}

function Equipment({ section }: { readonly section: 'people' | 'thermometers' | 'smokers' | 'places' }): ReactNode {
  const office = useAsk('office.get', {});
  if (office.data === undefined) return <ProblemNote failure={failureOf(office.error)} />;
  return <EquipmentList section={section} office={office.data} />;
}

function EquipmentList({ section, office }: { readonly section: 'people' | 'thermometers' | 'smokers' | 'places'; readonly office: Output<'office.get'> }): ReactNode {
  switch (section) {
    case 'people': return <People people={office.people} />;
    case 'thermometers': return <Instruments />;
    case 'smokers': return <Smokers smokers={office.smokers} instruments={office.instruments} />;
    case 'places': return <ColdPlaces places={office.places} />;
  }
}
