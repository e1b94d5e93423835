import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Need } from '../../../app/contract/requests/smokehouse.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';
import { pieceColour, pieceNumbers } from '../../chart/load-series.ts';

const text = words.smokehouse;
const BAR = 176;

/** Per piece: its temperature, its hold so far, what is to go; then when to read next. */
export function NeedList({ shown }: { readonly shown: Output<'load.get'> }): ReactNode {
  const formats = useFormats();
  const numbers = pieceNumbers(shown.load);
  return (
    <section className="sheet needs" aria-label={text.needs}>
      {shown.needs.map((need) => {
        const point = shown.load.points.find((each) => each.id === need.pointId);
        const number = numbers.get(need.pointId);
        if (point === undefined) return null;
        return (
          <div className="need" key={need.pointId}>
            <div>
              <span className="strong" style={{ color: number === undefined ? undefined : pieceColour(number - 1) }}>{point.name}</span>{' '}
              <span className="soft small">{[point.rackPlace, point.thicknessMm === null ? '' : `${point.thicknessMm} mm`].filter((part) => part !== '').join(', ')}</span>
            </div>
            <div className="big-figure">
              {need.lastTicks === null ? <span className="of">{text.noReading}</span> : <>{formats.degrees(need.lastTicks)} <span className="of">{formats.degreeSign}</span></>}
            </div>
            <div className="need-text">
              <HoldBar need={need} colour={number === undefined ? 'var(--soft)' : pieceColour(number - 1)} />
              <div>{need.text}</div>
            </div>
          </div>
        );
      })}
      {shown.nextReadings.length === 0 ? null : (
        <div className="next-readings">
          <h3>{text.nextReading}</h3>
          <ul>
            {shown.nextReadings.map((next) => (
              <li key={`${next.pointId ?? ''}${next.atMs}${next.text}`}>
                <span className="number strong">{formats.clock(next.atMs)}</span> {next.text} {next.overdue ? <b className="fault">{text.overdue}</b> : null}
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}

/** Progress of a hold: another form than the verdict's shape, so that “not yet” is never read as “failed”. */
function HoldBar({ need, colour }: { readonly need: Need; readonly colour: string }): ReactNode {
  if (need.requiredMinutes === null || need.provenMinutes === null) return null;
  const part = Math.min(1, need.provenMinutes / need.requiredMinutes);
  return (
    <svg className="hold-bar" height="14" viewBox="0 0 190 14" preserveAspectRatio="none" aria-hidden="true">
      <path d={`M2 7h${BAR}`} stroke="var(--rule)" strokeWidth="8" />
      <path d={`M2 7h${BAR * part}`} stroke={colour} strokeWidth="8" />
      <path d="M178 0v14" stroke="var(--ink)" strokeWidth="2.4" vectorEffect="non-scaling-stroke" />
    </svg>
  );
}
