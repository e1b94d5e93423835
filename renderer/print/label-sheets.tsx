import type { ReactNode } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { LabelFace } from './label-face.tsx';
import { sheetPages } from './label-pages.ts';

interface LabelSheetsProps {
  readonly labels: readonly StoredLabel[];
  /** The first free label of the first sheet, from 1. */
  readonly startAt: number;
  readonly scale: number;
  readonly markPicture: string | undefined;
}

/** Labels as they lie on their stock: one after another from a roll, or on sheets from any free label on. */
export function LabelSheets({ labels, startAt, scale, markPicture }: LabelSheetsProps): ReactNode {
  const sheet = labels[0]?.stock.sheet;
  if (sheet === undefined) return labels.map((label) => <LabelFace key={label.packId} label={label} scale={scale} markPicture={markPicture} />);
  return sheetPages(labels, sheet, startAt).map((page, index) => (
    <div key={index} className="label-page" style={{ width: `${sheet.pageWidthMm}mm`, height: `${sheet.pageHeightMm}mm` }}>
      {page.map(({ label, at }) => <LabelFace key={label.packId} label={label} scale={scale} markPicture={markPicture} at={at} />)}
    </div>
  ));
}
