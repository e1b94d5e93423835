/** What only the drawn label can tell: whether every word fits, and where the net quantity stands. */
import { useEffect, useState, type RefObject } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { highestLiftMm, panelFromMillimetres } from '../../app/packs/type-height.ts';
import { TYPE_SCALES } from './label-type.ts';

export interface LabelFit {
  readonly holdsAll: boolean;
  /** From the label's lower edge to the top of the net quantity; null where none stands by itself. */
  readonly netTopMm: number | null;
}

/** The labels as drawn: as large as all their words fit, in the end as small as the rules allow. */
export interface LabelFits {
  /** By the label's digest, so that one that changed is measured again; empty until measured. */
  readonly fits: ReadonlyMap<string, LabelFit>;
  /** Of `typeSizesMm`. */
  readonly scale: number;
  readonly isTooSmall: boolean;
}

/**
 * Measures the labels within a box, once their face is there (a wider one stands in before), and has all of them drawn smaller
 * where one doesn't hold its words, or where its net quantity would come to stand too high.
 * @param labels measured again when they are others
 */
export function useLabelFits(box: RefObject<HTMLElement | null>, labels: readonly StoredLabel[]): LabelFits {
  const [fits, setFits] = useState<ReadonlyMap<string, LabelFit>>(new Map());
  const [step, setStep] = useState(0);
  const isCut = [...fits.values()].some(({ holdsAll }) => !holdsAll);
  useEffect(() => {
    let shown = true;
    void document.fonts.ready.then(() => {
      if (!shown || box.current === null) return;
      const faces = box.current.querySelectorAll('.pack-label');
      const measured = new Map(labels.flatMap(({ digest }, place) => {
        const face = faces[place];
        return face === undefined ? [] : [[digest, measureFace(face)] as const];
      }));
      const isTooLarge = [...measured.values()].some(({ holdsAll }) => !holdsAll) || (liftOf(labels, measured) ?? 0) < 0;
      if (isTooLarge && step + 1 < TYPE_SCALES.length) setStep(step + 1);
      else setFits(measured);
    });
    return () => {
      shown = false;
    };
  }, [box, labels, step]);
  return { fits, scale: TYPE_SCALES[step] ?? 0, isTooSmall: isCut };
}

/**
 * Whether every block, every part of the net quantity that doesn't break (it may be wider than its block) and the symbol lie
 * inside the label's own room, and no word is wider than its block; a pixel is forgiven for rounding.
 */
function measureFace(face: Element): LabelFit {
  const room = face.querySelector('.label-words')?.getBoundingClientRect() ?? face.getBoundingClientRect();
  const isHeld = (part: Element): boolean => {
    const { top, bottom } = part.getBoundingClientRect();
    // Words within a line have no width of their own here, and reach as far as they are seen.
    const holdsWords = part.clientWidth === 0 || part.scrollWidth <= part.clientWidth + 1;
    return holdsWords && top >= room.top - 1 && bottom <= room.bottom + 1 && isBetweenEdges(part, room);
  };
  // The letters of a net quantity's parts are lower than the parts themselves, which may reach below their line.
  const holdsAll = [...face.querySelectorAll('.label-block, .symbol-room, .not-for-sale')].every(isHeld) && [...face.querySelectorAll('.label-net span')].every((part) => isBetweenEdges(part, room));
  const net = face.querySelector('.label-net');
  return { holdsAll, netTopMm: net === null ? null : ((face.getBoundingClientRect().bottom - net.getBoundingClientRect().top) / 96) * 25.4 };
}

function isBetweenEdges(part: Element, room: DOMRect): boolean {
  const { left, right } = part.getBoundingClientRect();
  return left >= room.left - 1 && right <= room.right + 1;
}

/**
 * How far above the pouch's lower edge the labels may stick, so that their net quantities lie in the bottom 30 %.
 * @returns millimetres, below zero where no place will do; null where no rule says so or the pouch isn't known
 */
export function liftOf(labels: readonly StoredLabel[], fits: ReadonlyMap<string, LabelFit>): number | null {
  const lifts = labels.flatMap(({ digest, placing }) => {
    const netTopMm = fits.get(digest)?.netTopMm ?? null;
    if (netTopMm === null || placing === undefined || placing.pouch === null || placing.footShare === null) return [];
    const liftMm = highestLiftMm(panelFromMillimetres(placing.pouch.widthMm, placing.pouch.heightMm), netTopMm);
    return liftMm === null ? [] : [liftMm];
  });
  return lifts.length === 0 ? null : Math.min(...lifts);
}
