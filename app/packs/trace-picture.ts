/** A trace as a picture: columns from source to hand, packs that are alike drawn as one box, and where each box and line lies. */

/** What the picture needs of a thing. */
export interface PictureNode {
  readonly key: string;
  readonly kind: string;
  readonly title: string;
  readonly side: string;
}
export interface PictureEdge {
  readonly from: string;
  readonly to: string;
}

export interface PictureBox {
  readonly key: string;
  /** The things it stands for, in their order; several only for packs and thermometers. */
  readonly nodes: readonly PictureNode[];
  readonly column: number;
  readonly x: number;
  readonly y: number;
}
export interface PictureLine {
  readonly key: string;
  readonly path: string;
}
export interface TracePicture {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly PictureBox[];
  readonly lines: readonly PictureLine[];
  /** Left edges of the columns, in their order; a column without a box has none. */
  readonly columns: readonly { readonly column: number; readonly x: number }[];
}

export const BOX_WIDTH = 162;
export const BOX_HEIGHT = 52;
const COLUMN_GAP = 24;
const ROW_GAP = 12;
const HEAD = 28;

/** Sources, lots, batches, how they were made, packs, and where these are. */
const COLUMNS: Readonly<Record<string, number>> = {
  supplier: 0, owner: 0, 'fish-lot': 1, 'ingredient-lot': 1, batch: 2, recipe: 3, load: 3, thermometer: 3, pack: 4, place: 5, recipient: 5, fate: 5, complaint: 5,
};
const COLUMN_COUNT = 6;
/** Many of these are alike. */
const GROUPED: readonly string[] = ['pack', 'thermometer'];

/** Lays a trace out, in units of one point; the same for the same trace. Lines that run backward are drawn all the same. */
export function layOutTrace(nodes: readonly PictureNode[], edges: readonly PictureEdge[]): TracePicture {
  const groups = groupAlike(nodes, edges);
  const boxOf = new Map(groups.flatMap((group) => group.map((node) => [node.key, group[0]?.key ?? node.key] as const)));
  const used = [...new Set(groups.map(([first]) => columnOf(first)))].sort((one, other) => one - other);
  const left = new Map(used.map((column, index) => [column, index * (BOX_WIDTH + COLUMN_GAP)]));
  const filled = new Map<number, number>();
  const boxes = groups.map((group): PictureBox => {
    const column = columnOf(group[0]);
    const row = filled.get(column) ?? 0;
    filled.set(column, row + 1);
    return { key: group[0]?.key ?? '', nodes: group, column, x: left.get(column) ?? 0, y: HEAD + row * (BOX_HEIGHT + ROW_GAP) };
  });
  const byKey = new Map(boxes.map((box) => [box.key, box]));
  const lines = new Map<string, PictureLine>();
  for (const edge of edges) {
    const [from, to] = [byKey.get(boxOf.get(edge.from) ?? ''), byKey.get(boxOf.get(edge.to) ?? '')];
    if (from === undefined || to === undefined || from === to) continue;
    const key = `${from.key}>${to.key}`;
    lines.set(key, { key, path: pathBetween(from, to) });
  }
  const rows = Math.max(0, ...filled.values());
  return {
    width: Math.max(0, used.length * (BOX_WIDTH + COLUMN_GAP) - COLUMN_GAP),
    height: HEAD + rows * (BOX_HEIGHT + ROW_GAP),
    boxes, lines: [...lines.values()],
    columns: used.map((column) => ({ column, x: left.get(column) ?? 0 })),
  };
}

function columnOf(node: PictureNode | undefined): number {
  return COLUMNS[node?.kind ?? ''] ?? COLUMN_COUNT - 1;
}

/** Packs, and thermometers, that came from the same and went to the same are one group; everything else is its own. */
function groupAlike(nodes: readonly PictureNode[], edges: readonly PictureEdge[]): PictureNode[][] {
  const joined = new Map<string, string[]>();
  const note = (key: string, what: string): void => {
    const known = joined.get(key);
    if (known === undefined) joined.set(key, [what]);
    else known.push(what);
  };
  for (const { from, to } of edges) {
    note(from, `>${to}`);
    note(to, `<${from}`);
  }
  const groups = new Map<string, PictureNode[]>();
  for (const node of nodes) {
    const alike = GROUPED.includes(node.kind) ? `${node.kind} ${node.side} ${(joined.get(node.key) ?? []).toSorted().join(' ')}` : node.key;
    const group = groups.get(alike);
    if (group === undefined) groups.set(alike, [node]);
    else group.push(node);
  }
  return [...groups.values()];
}

/** Leaves a box on the side that faces the other; within a column it bends out to the right. */
function pathBetween(from: PictureBox, to: PictureBox): string {
  const [fromY, toY] = [from.y + BOX_HEIGHT / 2, to.y + BOX_HEIGHT / 2];
  if (from.x === to.x) {
    const right = from.x + BOX_WIDTH;
    const out = right + COLUMN_GAP / 2;
    return `M${right} ${fromY}C${out} ${fromY} ${out} ${toY} ${right} ${toY}`;
  }
  const [start, end] = from.x < to.x ? [from.x + BOX_WIDTH, to.x] : [from.x, to.x + BOX_WIDTH];
  const middle = (start + end) / 2;
  return `M${start} ${fromY}C${middle} ${fromY} ${middle} ${toY} ${end} ${toY}`;
}
