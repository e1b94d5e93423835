import bwipjs from 'bwip-js/browser';
import type { ReactNode } from 'react';

/** 203 dpi heads print 8 dots a millimetre; 4 dots a module is 0.5 mm, whole dots on both common heads within 2 %. */
const MODULE_MM = 0.5;

interface Modules {
  readonly width: number;
  readonly height: number;
  readonly path: string;
}

/** The modules of a Data Matrix (or GS1 Data Matrix) as one path, one unit a module. */
export function symbolModules(symbology: string, content: string): Modules {
  const [drawn] = bwipjs.raw({ bcid: symbology, text: content });
  if (drawn === undefined || !('pixs' in drawn)) throw new Error(`no matrix for ${symbology}`);
  const { pixs, pixx, pixy } = drawn;
  let path = '';
  for (let row = 0; row < pixy; row += 1) {
    for (let column = 0; column < pixx; column += 1) {
      if (pixs[row * pixx + column] === 1) path += `M${column} ${row}h1v1h-1z`;
    }
  }
  return { width: pixx, height: pixy, path };
}

/** The symbol at whole printer dots with a quiet zone of two modules. */
export function Symbol({ symbology, content }: { readonly symbology: string; readonly content: string }): ReactNode {
  const modules = symbolModules(symbology, content);
  const quiet = 2;
  const width = modules.width + 2 * quiet;
  const height = modules.height + 2 * quiet;
  return (
    <svg
      className="symbol" role="img" aria-label={content} shapeRendering="crispEdges"
      viewBox={`${-quiet} ${-quiet} ${width} ${height}`} width={`${width * MODULE_MM}mm`} height={`${height * MODULE_MM}mm`}
    >
      <path d={modules.path} fill="#000" />
    </svg>
  );
}
