import { useEffect, useRef, type ReactNode } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { Symbol } from './symbol.tsx';

interface LabelFaceProps {
  readonly label: StoredLabel;
  /** Told after drawing whether every word fits the stock. */
  onFit(fits: boolean): void;
}

/** Elements that stand at the foot beside the symbol: net weight, dates and lot. */
const FOOT: readonly string[] = ['L03', 'L09'];
/** Room between the label's edge and its words. */
const EDGE_MM = 3;

/** A label at its true size: the identity on top (of a guest's own catch: that it is not for sale), net weight at the foot. */
export function LabelFace({ label, onFit }: LabelFaceProps): ReactNode {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let shown = true;
    // Before the label's own face is there, a wider one stands in: only then can it be measured.
    void document.fonts.ready.then(() => {
      const words = box.current;
      if (shown && words !== null) onFit(holdsAll(words));
    });
    return () => {
      shown = false;
    };
  });
  const front = label.custom ? label.blocks[0] : undefined;
  const others = label.custom ? label.blocks.slice(1) : label.blocks;
  const foot = others.filter((block) => FOOT.includes(block.element));
  const body = others.filter((block) => !FOOT.includes(block.element));
  return (
    <section className="pack-label" style={{ width: `${label.stock.widthMm}mm`, height: `${label.stock.heightMm}mm` }} aria-label={label.packCode}>
      <div className="label-words" ref={box}>
        {front === undefined ? null : <NotForSale text={front.text} widthMm={label.stock.widthMm - 2 * EDGE_MM} />}
        {body.map((block) => <p key={block.element + block.text} className={`label-block ${block.element}`}>{block.text}</p>)}
        <div className="label-foot">
          <div>{foot.map((block) => <p key={block.element + block.text} className={`label-block ${block.element}`}>{block.text}</p>)}</div>
          <Symbol symbology={label.code.symbology} content={label.code.content} />
        </div>
      </div>
    </section>
  );
}

/** Whether every block and the symbol lie inside the label's own room; a pixel is forgiven for rounding. */
function holdsAll(box: Element): boolean {
  const room = box.getBoundingClientRect();
  return [...box.querySelectorAll('.label-block, svg')].every((part) => {
    const { top, bottom, left, right } = part.getBoundingClientRect();
    return top >= room.top - 1 && bottom <= room.bottom + 1 && left >= room.left - 1 && right <= room.right + 1;
  });
}

/** The least height of the words “not for sale”: 3/8 in, 9 CFR 317.16 for custom-prepared meat (read), taken over for fish. */
const NOT_FOR_SALE_CAP_MM = 9.6;
const OTHER_CAP_MM = 5;

/** Between two lines of capitals. */
const CAP_GAP_MM = 1.2;

/** The front line of a guest's own catch, each part a line as wide as the label; “not for sale” never under its least height. */
function NotForSale({ text, widthMm }: { readonly text: string; readonly widthMm: number }): ReactNode {
  const lines = text.split(' - ');
  const caps = lines.map((line) => (line.includes('NOT') ? NOT_FOR_SALE_CAP_MM : OTHER_CAP_MM));
  const baselineMm = (index: number): number => caps.slice(0, index + 1).reduce((sum, cap) => sum + cap + CAP_GAP_MM, -CAP_GAP_MM);
  const heightMm = baselineMm(lines.length - 1) + CAP_GAP_MM;
  return (
    <svg className="not-for-sale" role="img" aria-label={text} width={`${widthMm}mm`} height={`${heightMm}mm`} viewBox={`0 0 ${widthMm} ${heightMm}`}>
      {lines.map((line, index) => (
        <text key={line} x="0" y={baselineMm(index)} fontSize={(caps[index] ?? OTHER_CAP_MM) / CAPITAL_SHARE} textLength={widthMm} lengthAdjust="spacingAndGlyphs">{line}</text>
      ))}
    </svg>
  );
}

/** Capitals are this share of the type size in the bundled face (its own metrics: cap height 668 of 1000). */
const CAPITAL_SHARE = 0.668;
