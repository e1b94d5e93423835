/** What only the drawn label can tell: whether every word fits, and where the net quantity stands. */
import { useEffect, useState, type RefObject } from 'react';
import type { StoredLabel } from '../../app/contract/requests/packing.ts';
import { highestLiftMm, panelFromMillimetres } from '../../app/packs/type-height.ts';

export interface LabelFit {
  readonly holdsAll: boolean;
  /** From the label's lower edge to the top of the net quantity; null where none stands by itself. */
  readonly netTopMm: number | null;
}

/** The labels as drawn: easy to read where their words fit so, else as small as the rules allow. */
export interface LabelFits {
  /** By pack code; empty until measured. */
  readonly fits: ReadonlyMap<string, LabelFit>;
  readonly isTight: boolean;
  readonly isTooSmall: boolean;
}

/**
 * Measures the labels within a box, once their face is there (a wider one stands in before), and has them drawn tightly where
 * one doesn't hold its words.
 * @param labels measured again when they are others
 */
export function useLabelFits(box: RefObject<HTMLElement | null>, labels: readonly StoredLabel[]): LabelFits {
  const [fits, setFits] = useState<ReadonlyMap<string, LabelFit>>(new Map());
  const [isTight, setTight] = useState(false);
  const isCut = [...fits.values()].some(({ holdsAll }) => !holdsAll);
  useEffect(() => {
    let shown = true;
    void document.fonts.ready.then(() => {
      if (!shown || box.current === null) return;
      const faces = box.current.querySelectorAll('.pack-label');
      const measured = new Map(labels.flatMap(({ packCode }, place) => {
        const face = faces[place];
        return face === undefined ? [] : [[packCode, measureFace(face)] as const];
      }));
      if (!isTight && [...measured.values()].some(({ holdsAll }) => !holdsAll)) setTight(true);
      else setFits(measured);
    });
    return () => {
      shown = false;
    };
  }, [box, labels, isTight]);
  return { fits, isTight, isTooSmall: isCut };
}

/** Whether every block and the symbol lie inside the label's own room; a pixel is forgiven for rounding. */
function measureFace(face: Element): LabelFit {
  const room = face.querySelector('.label-words')?.getBoundingClientRect() ?? face.getBoundingClientRect();
  const holdsAll = [...face.querySelectorAll('.label-block, .symbol-room, .not-for-sale')].every((part) => {
    const { top, bottom, left, right } = part.getBoundingClientRect();
    return top >= room.top - 1 && bottom <= room.bottom + 1 && left >= room.left - 1 && right <= room.right + 1;
  });
  const net = face.querySelector('.label-net');
  return { holdsAll, netTopMm: net === null ? null : ((face.getBoundingClientRect().bottom - net.getBoundingClientRect().top) / 96) * 25.4 };
}

/**
 * How far above the pouch's lower edge the labels may stick, so that their net quantities lie in the bottom 30 %.
 * @returns millimetres, below zero where no place will do; null where no rule says so or the pouch isn't known
 */
export function liftOf(labels: readonly StoredLabel[], fits: ReadonlyMap<string, LabelFit>): number | null {
  const lifts = labels.flatMap(({ packCode, placing }) => {
    const netTopMm = fits.get(packCode)?.netTopMm ?? null;
    if (netTopMm === null || placing === undefined || placing.pouch === null || placing.footShare === null) return [];
    const liftMm = highestLiftMm(panelFromMillimetres(placing.pouch.widthMm, placing.pouch.heightMm), netTopMm);
    return liftMm === null ? [] : [liftMm];
  });
  return lifts.length === 0 ? null : Math.min(...lifts);
}
