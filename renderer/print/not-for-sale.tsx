import type { ReactNode } from 'react';
import { frontLines } from '../../app/packs/owner-words.ts';
import { FACE, NOT_FOR_SALE_CAP_MM, onWholeDots } from './label-type.ts';

const OTHER_CAP_MM = 5;
/** Between two lines of capitals. */
const CAP_GAP_MM = 1.2;

/** How high the front line is, in whole dots. */
export function notForSaleHeightMm(text: string, dot: number): number {
  return onWholeDots(capsOf(text).reduce((sum, cap) => sum + cap + CAP_GAP_MM, 0), dot);
}

function capsOf(text: string): readonly number[] {
  return frontLines(text).map(({ isLarge }) => (isLarge ? NOT_FOR_SALE_CAP_MM : OTHER_CAP_MM));
}

/** The front line of a guest's own catch, each part a line as wide as the label; “not for sale” never under its least height. */
export function NotForSale({ text, widthMm, dot }: { readonly text: string; readonly widthMm: number; readonly dot: number }): ReactNode {
  const caps = capsOf(text);
  const baselineMm = (index: number): number => caps.slice(0, index + 1).reduce((sum, cap) => sum + cap + CAP_GAP_MM, -CAP_GAP_MM);
  const heightMm = notForSaleHeightMm(text, dot);
  return (
    <svg className="not-for-sale" role="img" aria-label={text} width={`${widthMm}mm`} height={`${heightMm}mm`} viewBox={`0 0 ${widthMm} ${heightMm}`}>
      {frontLines(text).map(({ text: line }, index) => (
        <text key={line} x="0" y={baselineMm(index)} fontSize={(caps[index] ?? OTHER_CAP_MM) / FACE.capital} textLength={widthMm} lengthAdjust="spacingAndGlyphs">{line}</text>
      ))}
    </svg>
  );
}
