import { Fragment, useMemo, type ReactNode } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { clearAboveMm, dotMm, edgeMm, LINE_HEIGHT, moduleMmOf, NET_LINE_HEIGHT, quietModules, typeSizesMm } from './label-type.ts';
import './label.css';
import { NotForSale, notForSaleHeightMm } from './not-for-sale.tsx';
import { Symbol, symbolModules } from './symbol.tsx';

interface LabelFaceProps {
  readonly label: StoredLabel;
  /** How large its words are, of `typeSizesMm`. */
  readonly scale: number;
  /** The kitchen's mark as a picture, in base64; absent while it isn't there or is none. */
  readonly markPicture?: string | undefined;
  /** Its upper left corner on a sheet, in millimetres; absent on a roll. */
  readonly at?: { readonly leftMm: number; readonly topMm: number } | undefined;
}

/** Short facts that follow each other in a line as long as there is room: of a guest's own catch the net quantity too, which the rules of sale don't bind. */
const FLOWING: readonly (readonly string[])[] = [['L15'], ['L06'], ['L03', 'L09']];
/** The net quantity breaks between its two systems only. */
const NET_PARTS = / (?=\()|(?<=\)) /;
const MARK_HEIGHT_MM = 8;
const MARK_WIDTH_MM = 30;

/**
 * A label at its true size: the symbol in the upper right corner, the name (of a guest's own catch: that it is not for sale)
 * on top, then the words, each block flowing as the stock's width has it, and at the foot the net quantity with nothing beside it.
 */
export function LabelFace({ label, scale, markPicture, at }: LabelFaceProps): ReactNode {
  const { stock, custom, code } = label;
  const edge = edgeMm(label);
  const dot = dotMm(label);
  const sizes = typeSizesMm(label.blocks, scale);
  const drawn = label.blocks.map((block, place) => ({ ...block, place, typeMm: sizes[place] ?? 0 }));
  const front = custom ? drawn[0] : undefined;
  const net = custom ? undefined : drawn.find(({ element }) => element === 'L03');
  const body = drawn.filter((block) => block !== front && block !== net);
  const wordsWidthMm = stock.widthMm - 2 * edge;
  const modules = useMemo(() => symbolModules(code.symbology, code.content), [code.symbology, code.content]);
  const moduleMm = moduleMmOf(label);
  const quietMm = quietModules(code.symbology) * moduleMm;
  const room = { widthMm: modules.width * moduleMm + 2 * quietMm, heightMm: modules.height * moduleMm + 2 * quietMm };
  // From the label's left edge the symbol begins on a whole dot.
  const roomLeftMm = Math.floor((stock.widthMm - edge - room.widthMm) / dot + 1e-6) * dot;
  const roomTopMm = edge + (front === undefined ? 0 : notForSaleHeightMm(front.text, dot));
  return (
    <section
      className="pack-label" aria-label={label.packCode} data-digest={label.digest}
      style={{ width: `${stock.widthMm}mm`, height: `${stock.heightMm}mm`, padding: `${edge}mm`, ...(at === undefined ? {} : { position: 'absolute', left: `${at.leftMm}mm`, top: `${at.topMm}mm` }) }}
    >
      <div className={`label-words${scale === 0 ? ' tight' : ''}`} style={{ lineHeight: LINE_HEIGHT }}>
        <div className="label-body">
          {front === undefined ? null : <NotForSale text={front.text} widthMm={wordsWidthMm} dot={dot} />}
          <div className="symbol-room" style={{ width: `${stock.widthMm - edge - roomLeftMm}mm`, height: `${room.heightMm}mm` }} />
          <Mark label={label} picture={markPicture} />
          {groupsOf(body).map((group) => <Group key={group[0]?.place} blocks={group} />)}
        </div>
        {net === undefined ? null : <p className="label-block L03 label-net" style={{ fontSize: `${net.typeMm}mm`, marginTop: `${clearAboveMm(net.typeMm)}mm`, lineHeight: NET_LINE_HEIGHT }}>{net.text.split(NET_PARTS).map((part, index) => <Fragment key={part}>{index === 0 ? '' : ' '}<span>{part}</span></Fragment>)}</p>}
      </div>
      <Symbol modules={modules} content={code.content} label={stock} leftMm={roomLeftMm + quietMm} topMm={roomTopMm + quietMm} moduleMm={moduleMm} />
    </section>
  );
}

interface DrawnBlock {
  readonly element: string;
  readonly text: string;
  readonly place: number;
  readonly typeMm: number;
  readonly isBold?: boolean | undefined;
}

/** Blocks one after another; those that flow share a line with their neighbours of the same kind. */
function groupsOf(blocks: readonly DrawnBlock[]): readonly (readonly DrawnBlock[])[] {
  const groups: DrawnBlock[][] = [];
  for (const block of blocks) {
    const last = groups.at(-1);
    if (last?.every((before) => flowTogether(before, block)) === true) last.push(block);
    else groups.push([block]);
  }
  return groups;
}

function flowTogether(one: DrawnBlock, other: DrawnBlock): boolean {
  return FLOWING.some((kinds) => kinds.includes(one.element) && kinds.includes(other.element));
}

function Group({ blocks }: { readonly blocks: readonly DrawnBlock[] }): ReactNode {
  const [first, ...others] = blocks;
  if (first === undefined) return null;
  if (others.length === 0) return <p className={blockClass(first)} style={{ fontSize: `${first.typeMm}mm` }}>{first.text}</p>;
  return <div className="label-flow">{blocks.map((block) => <span key={block.place} className={blockClass(block)} style={{ fontSize: `${block.typeMm}mm` }}>{block.text}</span>)}</div>;
}

function blockClass({ element, isBold }: DrawnBlock): string {
  return `label-block ${element}${isBold === true ? ' bold' : ''}`;
}

/** The kitchen's mark, which no rule asks for and which gives way to none: where it leaves too little room the stock is too small. */
function Mark({ label: { mark }, picture }: { readonly label: StoredLabel; readonly picture: string | undefined }): ReactNode {
  if (mark === undefined) return null;
  if (mark.kind === 'text') return <p className="label-block label-mark">{mark.text}</p>;
  const widthMm = Math.min(MARK_WIDTH_MM, (MARK_HEIGHT_MM * mark.widthPixels) / mark.heightPixels);
  const size = { width: `${widthMm}mm`, height: `${(widthMm * mark.heightPixels) / mark.widthPixels}mm` };
  if (picture === undefined) return <div className="label-block label-mark" style={size} />;
  return <img className="label-block label-mark" style={size} src={`data:image/png;base64,${picture}`} alt="" />;
}
