import type { ReactNode } from 'react';
import type { Exposure, Lethality } from '../../../app/contract/requests/verdict.ts';
import { words } from '../../words/words.ts';

const text = words.detail;

/** How long the fish was warm; folded, since no verdict rests on it. */
export function ExposureDetail({ exposure }: { readonly exposure: Exposure }): ReactNode {
  return (
    <details className="sheet">
      <summary>{text.exposure}</summary>
      <div className="stack">
        <p className="help">{text.exposureLead}</p>
        {exposure.apart.map((each) => <p key={each.what}>{text.apart[each.what]}: {rangeOf(each)}.</p>)}
        <div className="wide-table">
          <table>
            <thead><tr><th>{text.organism}</th><th>{text.band}</th><th>{text.time}</th><th>{text.allowed}</th></tr></thead>
            <tbody>
              {exposure.bands.map((band) => (
                <tr key={`${band.organism} ${band.band}`}>
                  <td>{band.organism}</td><td>{band.band}</td><td>{rangeOf(band)}</td><td>{text.hours(band.allowedMinutes)}{band.note === '' ? '' : ` (${band.note})`}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
        {exposure.bands[0] === undefined ? null : <p className="soft small">{text.source}: {exposure.bands[0].source} ({exposure.bands[0].mark})</p>}
        <h3>{text.rules}</h3>
        <ul>
          {exposure.rules.map((rule) => (
            <li key={rule.title}>
              <b>{rule.title}</b> ({rule.tiers}): {rule.limbs.map((limb) => `${limb.text} ${rangeOf(limb)}, ${text.allowed.toLowerCase()} ${text.hours(limb.allowedMinutes)}`).join('; ')}
              <span className="soft small"> {rule.source} ({rule.mark})</span>
            </li>
          ))}
        </ul>
        {exposure.notes.map((note) => <p key={note} className="soft">{note}</p>)}
      </div>
    </details>
  );
}

/** What the heat was worth; folded, and shown only where the heat check is met. */
export function LethalityDetail({ lethality }: { readonly lethality: Lethality }): ReactNode {
  return (
    <details className="sheet">
      <summary>{text.lethality}</summary>
      <div className="stack">
        {lethality.notes.map((note) => <p key={note} className="help">{note}</p>)}
        <ul>
          {lethality.targets.map((target) => (
            <li key={target.name}>
              <b>{target.name}</b> {target.organism}, {text.required(target.requiredMinutes)}: {target.pieces.map((piece) => `${piece.name} ${text.minutes(figure(piece.minutes))}${piece.gapMinutes > 0 ? ` (${text.gap(figure(piece.gapMinutes))})` : ''}`).join('; ')}
              <span className="soft small"> {target.sources.map((source) => `${source.text} (${source.mark})`).join('; ')}</span>
            </li>
          ))}
        </ul>
      </div>
    </details>
  );
}

function rangeOf({ shortestMinutes, longestMinutes }: { readonly shortestMinutes: number; readonly longestMinutes: number }): string {
  return text.range(text.hours(shortestMinutes), text.hours(longestMinutes));
}

/** Three digits that count; never a false nought. */
function figure(minutes: number): string {
  if (minutes === 0) return '0';
  return minutes < 0.001 ? 'less than 0.001' : Number(minutes.toPrecision(3)).toString();
}
