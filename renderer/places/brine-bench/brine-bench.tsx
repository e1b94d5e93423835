import type { ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { addressOf, useAddress } from '../../frame/address.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { BatchCard } from './batch-card.tsx';
import { Deliveries } from './deliveries.tsx';
import { IngredientShelf } from './ingredient-shelf.tsx';
import { MendPage } from './mend-page.tsx';
import { NewBrine } from './new-brine.tsx';
import { RecipeShelf } from './recipe-shelf.tsx';
import { StrengthTool } from './strength-tool.tsx';
import { TasteBench } from './taste-bench.tsx';
import { WeighScreen } from './weigh-screen.tsx';
import './brine-bench.css';

const text = words.brineBench;
/** The bench's own pages; any other first word is a batch. */
const TOOLS = ['taste', 'recipes', 'ingredients', 'deliveries', 'strength'] as const;

/** The brine bench: a new brine, a batch's card and what is done with it, and the bench's tools. */
export function BrineBench(): ReactNode {
  const { rest } = useAddress();
  const [first, ...more] = rest;
  return (
    <>
      <BenchNav first={first} />
      <Shown first={first} more={more} />
    </>
  );
}

function Shown({ first, more }: { readonly first: string | undefined; readonly more: readonly string[] }): ReactNode {
  switch (first) {
    case undefined: return <NewBrine />;
    case 'recipes': return <RecipeShelf rest={more} />;
    case 'taste': return <TasteBench rest={more} />;
    case 'ingredients': return <IngredientShelf rest={more} />;
    case 'deliveries': return <Deliveries />;
    case 'strength': return <StrengthTool />;
    default: return <OneBatch batchId={first} page={more[0]} />;
  }
}

function OneBatch({ batchId, page }: { readonly batchId: string; readonly page: string | undefined }): ReactNode {
  const list = useAsk('batch.list', {});
  if (list.data === undefined) return <ProblemNote failure={failureOf(list.error)} />;
  const batch = list.data.batches.find((one) => one.id === batchId);
  if (batch === undefined) return <><h1>{text.title}</h1><p>{text.gone}</p></>;
  switch (page) {
    case 'weigh': return <WeighScreen batch={batch} key={batch.id} />;
    case 'mend': return <MendPage batch={batch} key={batch.id} />;
    default: return <BatchCard batch={batch} key={batch.id} />;
  }
}

/** What is in and near the brine, and the bench's tools. */
function BenchNav({ first }: { readonly first: string | undefined }): ReactNode {
  const list = useAsk('batch.list', {});
  const near = (list.data?.batches ?? []).filter(isNear);
  return (
    <div className="spread middle">
      {near.length === 0 ? null : (
        <nav className="row" aria-label={text.inBrine}>
          {near.map((batch) => (
            <a key={batch.id} className="chip" href={addressOf('brine-bench', batch.id)} aria-current={batch.id === first ? 'true' : undefined}>
              <b>{batch.shortName}</b> {batch.marketName}, {text.stages[batch.stage]}
            </a>
          ))}
        </nav>
      )}
      <nav className="page-links" aria-label={text.links.label}>
        <a href={addressOf('brine-bench')} aria-current={first === undefined ? 'page' : undefined}>{text.links.fresh}</a>
        {TOOLS.map((tool) => (
          <a key={tool} href={addressOf('brine-bench', tool)} aria-current={tool === first ? 'page' : undefined}>{text.links[tool]}</a>
        ))}
      </nav>
    </div>
  );
}

function isNear(batch: Batch): boolean {
  return batch.stage === 'ready' || batch.stage === 'soaking' || batch.stage === 'drying';
}
