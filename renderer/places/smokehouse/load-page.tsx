import { useMemo, useState, type ReactNode } from 'react';
import type { Input, Output } from '../../../app/contract/contract.ts';
import type { Load } from '../../../app/contract/requests/smokehouse.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { sentenceKey, sentencesOf, type Sentence } from '../../chart/evidence-lanes.ts';
import { ProbeChart } from '../../chart/probe-chart.tsx';
import { CheckList } from '../../parts/check-list.tsx';
import { Doubts } from '../../readings/doubts.tsx';
import { useDoubted } from '../../readings/doubted.ts';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { PaperLinks } from '../../print/paper-links.tsx';
import { WeighBatch } from '../../readings/weigh-batch.tsx';
import { words } from '../../words/words.ts';
import { AfterStart } from './alarm-after-start.tsx';
import { AlarmBar } from './alarm-bar.tsx';
import { LoadActions } from './load-actions.tsx';
import { chartSeriesOf, marksOf } from '../../chart/load-series.ts';
import { BatchGates } from './batch-gates.tsx';
import { SwapInstrument } from './load-chart-instruments.tsx';
import { TakeOutEarly } from './take-out-early.tsx';
import { batchOutMs, outChoices } from './taken-out.ts';
import { useZoom } from './load-chart-zoom.ts';
import { NeedList } from './need-list.tsx';
import { ReadyPanel } from './ready-panel.tsx';

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
  const sentences = useMemo(() => numbered(results), [results]);
  const marks = useMemo(() => [...marksOf(load), ...earlyMarks(load, batches)], [load, batches]);
  const zooming = useZoom(shown);
  const doubted = useDoubted(load.batchIds);
  const choose = (key: string): void => setChosen(key === chosen ? null : key);
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
      <TakeOutEarly shown={shown} />
      <AfterStart shown={shown} />
      {load.inAtMs !== null && load.cooledAtMs === null ? <AlarmBar loadId={load.id} /> : null}
      {batches.map((batch) => <BatchGates key={batch.id} batch={batch} isIn={load.inAtMs !== null} />)}
      {batches.map((batch) => <Doubts key={batch.id} batchId={batch.id} of={batches.length > 1 ? batch.shortName : ''} />)}
      <div className="columns">
        <section className="sheet">
          <ProbeChart {...zooming} doubted={doubted} title={text.chart.title} series={series} limits={shown.limitLines} sentences={sentences} chosen={chosen} onChoose={choose} marks={marks} nowMs={load.cooledAtMs === null && load.inAtMs !== null ? shown.nowMs : null} />
        </section>
        <NeedList shown={shown} />
      </div>
      {load.cooledAtMs === null ? (
        <div className="spread">
          <PaperLinks kinds={load.outAtMs === null ? ['smoke', 'cool'] : ['cool']} subjectId={load.id} />
          <SwapInstrument load={load} />
        </div>
      ) : null}
      {load.inAtMs === null ? <ReadyPanel asked={readyOf(load)} /> : null}
      <section className="sheet stack">
        <h2>{words.packingTable.corrective.weights.title}</h2>
        {batches.map((batch) => <WeighBatch key={batch.id} batch={batch} what={load.inAtMs === null ? 'brined' : batchOutMs(load, batch.id) === null ? null : 'finished'} />)}
      </section>
      {results.map(({ batchId, result }) => (
        <section className="sheet stack" key={batchId} aria-label={text.checks}>
          <div>
            <h2>{batches.length > 1 ? `${batches.find((batch) => batch.id === batchId)?.shortName ?? ''}: ` : ''}{text.checks}</h2>
            <p className="soft">{result.words}</p>
          </div>
          <CheckList result={result} chosen={result.checks.find((check) => sentenceKey(batchId, check.checkId) === chosen)?.checkId ?? null} onChoose={(id) => choose(sentenceKey(batchId, id))} />
        </section>
      ))}
      <p className="foot">{words.frame.caution}</p>
    </>
  );
}

/** The sentences of all batches, numbered through. */
function numbered(results: Output<'load.get'>['results']): Sentence[] {
  return results.reduce<Sentence[]>((before, { batchId, result }) => [...before, ...sentencesOf(result.checks, batchId, before.length)], []);
}

/** On the chart: what came out before the rest. */
function earlyMarks(load: Load, batches: Output<'load.get'>['batches']): ReturnType<typeof marksOf> {
  return outChoices({ load, batches }, words.paper.early.all).flatMap(({ atMs, name }) => (atMs === null ? [] : [{ atMs, text: words.paper.early.mark(name) }]));
}

/** The load as it was opened, asked about before it is lit. */
function readyOf(load: Load): Input<'load.ready'> {
  return {
    smokerId: load.smokerId,
    batchIds: load.batchIds,
    pieces: load.points.flatMap(({ role, batchId, thicknessMm, instrumentId, rackPlace }) => (role === 'piece' && batchId !== null ? [{ batchId, thicknessMm, instrumentId, rackPlace }] : [])),
  };
}
