import { useMemo, useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { ProbeChart } from '../../chart/probe-chart.tsx';
import { CheckList } from '../../parts/check-list.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { LoadActions } from './load-actions.tsx';
import { chartSeriesOf, marksOf } from '../../chart/load-series.ts';
import { NeedList } from './need-list.tsx';

const text = words.smokehouse;

/** A load as it runs: what is missing is the biggest thing, the chart beside it, the checks below. */
export function LoadPage({ loadId }: { readonly loadId: string }): ReactNode {
  const answer = useAsk('load.get', { loadId });
  if (answer.data === undefined) return <ProblemNote failure={failureOf(answer.error)} />;
  return <LoadShown shown={answer.data} />;
}

function LoadShown({ shown }: { readonly shown: Output<'load.get'> }): ReactNode {
  const formats = useFormats();
  const [chosen, setChosen] = useState<string | null>(null);
  const { load, batches, results } = shown;
  const series = useMemo(() => chartSeriesOf(load, shown.series), [load, shown.series]);
  const spans = results.flatMap((each) => each.result.checks).find((check) => check.checkId === chosen)?.spans ?? [];
  const names = batches.map((batch) => `${batch.shortName} ${batch.marketName}`).join(', ');
  return (
    <>
      <div className="spread">
        <div>
          <h1>{text.loadTitle(load.smokerName, load.number)}</h1>
          <p className="soft">
            {text.loadSub(names, text.processes[load.process])}, {load.inAtMs === null ? text.notIn : text.inSince(formats.moment(load.inAtMs))}
          </p>
        </div>
        <LoadActions shown={shown} />
      </div>
      <div className="columns">
        <section className="sheet">
          <ProbeChart title={text.chart.title} series={series} limits={shown.limitLines} spans={spans} marks={marksOf(load)} nowMs={load.cooledAtMs === null && load.inAtMs !== null ? shown.nowMs : null} />
        </section>
        <NeedList shown={shown} />
      </div>
      {results.map(({ batchId, result }) => (
        <section className="sheet stack" key={batchId} aria-label={text.checks}>
          <div>
            <h2>{batches.length > 1 ? `${batches.find((batch) => batch.id === batchId)?.shortName ?? ''}: ` : ''}{text.checks}</h2>
            <p className="soft">{result.words}</p>
          </div>
          <CheckList result={result} chosen={chosen} onChoose={(id) => setChosen(id === chosen ? null : id)} />
        </section>
      ))}
      <p className="foot">{words.frame.caution}</p>
    </>
  );
}
