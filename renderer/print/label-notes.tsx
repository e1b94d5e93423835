import type { ReactNode } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { addressOf } from '../frame/address.ts';
import { words } from '../words/words.ts';

const text = words.labels;

type Gap = StoredLabel['missing'][number];

const ADDRESSES: Readonly<Record<NonNullable<Gap['where']>, string>> = {
  kitchen: addressOf('office', 'kitchen'), labels: addressOf('office', 'labels'), 'fish-in': addressOf('fish-in'),
  ingredients: addressOf('brine-bench', 'ingredients'), 'packing-table': addressOf('packing-table'),
};

/** Each gap of several labels once. */
export function gapsOnce(labels: readonly StoredLabel[], of: 'missing' | 'cautions'): readonly Gap[] {
  const gaps = new Map(labels.flatMap((label) => (label[of] ?? []).map((gap) => [`${gap.element}: ${gap.why}`, gap] as const)));
  return [...gaps.values()];
}

/** What is missing or to be known, each with the way to where it is entered. */
export function GapList({ gaps }: { readonly gaps: readonly Gap[] }): ReactNode {
  return (
    <ul>
      {gaps.map(({ element, why, where }) => (
        <li key={element + why}>{element}: {why}{where === undefined ? null : <>{' '}<a className="link" href={ADDRESSES[where]}>{text.toEnter}</a></>}</li>
      ))}
    </ul>
  );
}

/** The fifteen elements of one label, each with its source. */
export function LabelChecks({ label }: { readonly label: StoredLabel }): ReactNode {
  if (label.checks === undefined) return null;
  return (
    <details className="label-checks">
      <summary>{text.checks}</summary>
      <table>
        <thead><tr><th>{text.element}</th><th>{text.state}</th><th>{text.words}</th><th>{text.source}</th></tr></thead>
        <tbody>
          {label.checks.map(({ element, title, state, words: said, source }) => (
            <tr key={element}><th scope="row">{element} {title}</th><td>{text.states[state]}</td><td>{said}</td><td className="soft small">{source}</td></tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

/** How far above the pouch's lower edge the label may stick, in the unit the pouch was entered in. */
export function LiftNote({ liftMm, unit }: { readonly liftMm: number | null; readonly unit: 'mm' | 'in' | undefined }): ReactNode {
  if (liftMm === null) return null;
  if (liftMm < 0) return <p className="fault" role="alert">{text.noPlace}</p>;
  // Cut, not rounded: a little lower is always right.
  const distance = unit === 'in' ? text.inches((Math.floor((liftMm / 25.4) * 10) / 10).toFixed(1)) : text.millimetres(String(Math.floor(liftMm)));
  return <p>{text.lift(distance)}</p>;
}
