import bwipjs from 'bwip-js/browser';
import type { ReactNode } from 'react';

export interface Modules {
  readonly width: number;
  readonly height: number;
  readonly path: string;
}

/** The modules of a Data Matrix, a GS1 Data Matrix or a QR code as one path, one unit a module; dark ones that follow each other in one stroke. */
export function symbolModules(symbology: string, content: string): Modules {
  const [drawn] = bwipjs.raw({ bcid: symbology, text: content });
  if (drawn === undefined || !('pixs' in drawn)) throw new Error(`no matrix for ${symbology}`);
  const { pixs, pixx, pixy } = drawn;
  let path = '';
  for (let row = 0; row < pixy; row += 1) {
    let dark = 0;
    for (let column = 0; column <= pixx; column += 1) {
      if (column < pixx && pixs[row * pixx + column] === 1) dark += 1;
      else if (dark > 0) {
        path += `M${column - dark} ${row}h${dark}v1h-${dark}z`;
        dark = 0;
      }
    }
  }
  return { width: pixx, height: pixy, path };
}

interface SymbolProps {
  readonly modules: Modules;
  /** What it says, for those who can't see it. */
  readonly content: string;
  /** The label it lies on, and its upper left dark corner from the label's. */
  readonly label: { readonly widthMm: number; readonly heightMm: number };
  readonly leftMm: number;
  readonly topMm: number;
  /** One module, a whole number of the print head's dots. */
  readonly moduleMm: number;
}

/**
 * The symbol on whole printer dots. The drawing is as large as the label: a smaller one would be put on whole pixels of the
 * page, which are no whole dots.
 */
export function Symbol({ modules, content, label, leftMm, topMm, moduleMm }: SymbolProps): ReactNode {
  return (
    <svg className="symbol" role="img" aria-label={content} shapeRendering="crispEdges" viewBox={`0 0 ${label.widthMm} ${label.heightMm}`} width={`${label.widthMm}mm`} height={`${label.heightMm}mm`}>
      <path d={modules.path} transform={`translate(${leftMm} ${topMm}) scale(${moduleMm})`} fill="#000" />
    </svg>
  );
}
