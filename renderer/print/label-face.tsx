import { useEffect, useRef, type ReactNode } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { Symbol } from './symbol.tsx';

interface LabelFaceProps {
  readonly label: StoredLabel;
  /** Told after drawing whether every word fits the stock. */
  onFit(fits: boolean): void;
}

/** Elements that go beside the symbol at the foot: net weight, dates, lot. */
const FOOT: readonly string[] = ['L03', 'L09'];

/** A label at its true size: the identity on top, net weight at the foot, the symbol beside it. */
export function LabelFace({ label, onFit }: LabelFaceProps): ReactNode {
  const words = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const box = words.current;
    if (box !== null) onFit(box.scrollHeight <= box.clientHeight + 1 && box.scrollWidth <= box.clientWidth + 1);
  });
  const foot = label.blocks.filter((block) => FOOT.includes(block.element));
  const body = label.blocks.filter((block) => !FOOT.includes(block.element));
  return (
    <section className={label.custom ? 'pack-label custom' : 'pack-label'} style={{ width: `${label.stock.widthMm}mm`, height: `${label.stock.heightMm}mm` }} aria-label={label.packCode}>
      <div className="label-words" ref={words}>
        {body.map((block) => (block.element === 'L15'
          ? <NotForSale key={block.text} text={block.text} widthMm={label.stock.widthMm - 6} />
          : <p key={block.element + block.text} className={`label-block ${block.element}`}>{block.text}</p>))}
        <div className="label-foot">
          <div>
            {foot.map((block) => <p key={block.element + block.text} className={`label-block ${block.element}`}>{block.text}</p>)}
            <p className="label-block serial">{label.packCode}</p>
          </div>
          <Symbol symbology={label.code.symbology} content={label.code.content} />
        </div>
      </div>
    </section>
  );
}

/**
 * The front line of a guest's own catch, its capitals 9.6 mm high (9.5 mm is the figure of
 * 9 CFR 317.16 for custom-prepared meat, taken over here), each part a line as wide as the label.
 */
function NotForSale({ text, widthMm }: { readonly text: string; readonly widthMm: number }): ReactNode {
  const lines = text.split(' - ');
  const capMm = 9.6;
  const lineMm = capMm + 1.6;
  return (
    <svg className="not-for-sale" role="img" aria-label={text} width={`${widthMm}mm`} height={`${lines.length * lineMm}mm`} viewBox={`0 0 ${widthMm} ${lines.length * lineMm}`}>
      {lines.map((line, index) => (
        <text key={line} x="0" y={index * lineMm + capMm} textLength={widthMm} lengthAdjust="spacingAndGlyphs">{line}</text>
      ))}
    </svg>
  );
}
