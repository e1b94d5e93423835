import { useState, type ReactNode } from 'react';
import type { Batch } from '../../../app/contract/requests/brine-bench.ts';
import type { Forecast, PieceForecast } from '../../../app/contract/requests/tub.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { useFormats } from '../../parts/format.ts';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { piecesOf, scaleOf } from './forecast-rows.ts';
import { sayReaches } from './hours-words.ts';
import { RangeBar } from './range-bar.tsx';
import { SampleForm } from './sample-form.tsx';

const text = words.brineBench.forecast;

/** What the soak is likely to do to the thickest and the thinnest piece. An estimate, in ink and lake blue. */
export function ForecastPanel({ batch }: { readonly batch: Batch }): ReactNode {
  const formats = useFormats();
  const answer = useAsk('soak.forecast', { batchId: batch.id });
  const [isAdding, setAdding] = useState(false);
  const failure = failureOf(answer.error);
  if (answer.data === undefined) return failure === null ? null : <section className="sheet stack"><h2>{text.title}</h2><ProblemNote failure={failure} /></section>;
  const { forecast, samples } = answer.data;
  const hasStarted = batch.soak.some((event) => event.what === 'start');
  return (
    <section className="sheet stack">
      <div>
        <h2>{text.title}</h2>
        <p><span className="strong">{text.proves}</span> <span className="soft">{text.target(forecast.target)}</span></p>
      </div>
      {piecesOf(forecast).map(({ title, piece }) => <Piece key={title} title={title} piece={piece} forecast={forecast} />)}
      {batch.thinnestMm === null ? <p className="soft small">{text.noThinnest}</p> : null}
      <details className="fold">
        <summary className="strong">{text.rests}</summary>
        <div className="stack">
          <p>{forecast.coefficient}</p>
          {forecast.notes.map((note) => <p key={note}>{note}</p>)}
        </div>
      </details>
      {samples.length === 0 ? null : (
        <div>
          <h3>{text.samples}</h3>
          <ul>
            {samples.map((sample) => (
              <li key={sample.id}>{text.sample(formats.moment(sample.takenAtMs), String(sample.thicknessMm), sample.saltPercent, sample.moisturePercent, text.hows[sample.how], sample.initials)}</li>
            ))}
          </ul>
        </div>
      )}
      {hasStarted ? <div className="row"><PressButton onPress={() => setAdding(true)}>{text.add}</PressButton></div> : null}
      {isAdding ? <SampleForm batch={batch} onClose={() => setAdding(false)} /> : null}
    </section>
  );
}

function Piece({ title, piece, forecast }: { readonly title: string; readonly piece: PieceForecast; readonly forecast: Forecast }): ReactNode {
  const mostPercent = scaleOf(forecast);
  const rows = [
    { name: text.afterPlan(String(forecast.soakHours)), after: piece.planned },
    { name: text.afterLong(String(forecast.longHours)), after: piece.long },
  ];
  return (
    <div className="forecast-piece">
      <h3>{title}</h3>
      <p className="reaches">{sayReaches(piece.reaches)}</p>
      {rows.map(({ name, after }) => (
        <div key={name}>
          <p className="soft">{name}</p>
          <Range range={after.brined} what={text.brined} mostPercent={mostPercent} />
          {after.finished === null ? null : <Range range={after.finished} what={text.finished(forecast.yieldPercent.toFixed(0))} mostPercent={mostPercent} />}
        </div>
      ))}
      <p className="spread small soft" aria-hidden="true"><span>{text.scale('0')}</span><span>{text.scale(String(mostPercent))}</span></p>
    </div>
  );
}

interface RangeProps {
  readonly range: PieceForecast['planned']['brined'];
  readonly what: string;
  readonly mostPercent: number;
}

function Range({ range, what, mostPercent }: RangeProps): ReactNode {
  const said = text.range(range.percent.toFixed(1), range.low.toFixed(1), range.high.toFixed(1));
  return (
    <div className="range-row">
      <p><span className="strong">{said}</span> <span className="soft">{what}</span></p>
      <RangeBar percent={range.percent} low={range.low} high={range.high} mostPercent={mostPercent} said={`${text.figure}, ${what}: ${said}`} />
    </div>
  );
}
