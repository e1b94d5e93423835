import { describe, expect, it } from 'vitest';
import { layOutTrace } from '../../app/packs/trace-picture.ts';
import { finishTrace, keyOf, type TraceRef, type TraceSource, walkTrace } from '../../app/packs/trace.ts';

/** Two lots in one batch, one of them in another batch too; each batch has packs, and one recipe stands beside both. */
const AFTER: Readonly<Record<string, readonly string[]>> = {
  'supplier:S': ['lot:1', 'lot:2'], 'lot:1': ['batch:A'], 'lot:2': ['batch:A', 'batch:B'], 'batch:A': ['pack:A1', 'pack:A2'], 'batch:B': ['pack:B1'],
  'pack:A1': ['guest:G'], 'pack:A2': ['store:F'], 'pack:B1': ['guest:G'],
};
const BESIDE: Readonly<Record<string, readonly string[]>> = { 'batch:A': ['load:1'], 'batch:B': ['load:1'], 'load:1': ['probe:P'] };

function refOf(key: string): TraceRef {
  const [kind = '', id = ''] = key.split(':');
  return { kind, id };
}
const SOURCE: TraceSource = {
  before: (ref) => Object.entries(AFTER).filter(([, after]) => after.includes(keyOf(ref))).map(([key]) => refOf(key)),
  after: (ref) => (AFTER[keyOf(ref)] ?? []).map(refOf),
  beside: (ref) => (BESIDE[keyOf(ref)] ?? []).map(refOf),
};

function traced(...keys: string[]): Record<string, string> {
  const { found } = finishTrace(walkTrace(keys.map(refOf), SOURCE));
  return Object.fromEntries(found.map(({ key, side }) => [key, side]));
}

describe('the walks of a trace', () => {
  it('go back to every source and forward to every hand, and no further', () => {
    expect(traced('pack:A1')).toEqual({
      'pack:A1': 'start', 'batch:A': 'back', 'lot:1': 'back', 'lot:2': 'back', 'supplier:S': 'back', 'guest:G': 'forward', 'load:1': 'beside', 'probe:P': 'beside',
    });
  });

  it('reach every pack of a lot in both of its batches, with the other lot of a batch only by starting there', () => {
    expect(traced('lot:2')).toEqual({
      'lot:2': 'start', 'supplier:S': 'back', 'batch:A': 'forward', 'batch:B': 'forward', 'pack:A1': 'forward', 'pack:A2': 'forward', 'pack:B1': 'forward',
      'guest:G': 'forward', 'store:F': 'forward', 'load:1': 'beside', 'probe:P': 'beside',
    });
  });

  it('start from several things at once, each found once', () => {
    const { found, edges } = finishTrace(walkTrace(['batch:A', 'batch:B'].map(refOf), SOURCE));
    expect(new Set(found.map(({ key }) => key)).size).toBe(found.length);
    expect(edges).toContainEqual({ from: 'lot:2', to: 'batch:B' });
    expect(edges.filter(({ from, to }) => from === 'supplier:S' && to === 'lot:2')).toHaveLength(1);
  });

  it('call forward what came before one start and after another', () => {
    expect(traced('lot:1', 'pack:A1')).toMatchObject({ 'batch:A': 'forward', 'pack:A2': 'forward', 'lot:2': 'back' });
  });

  it('come to an end where things go round', () => {
    const round: TraceSource = { before: () => [refOf('lot:1')], after: () => [refOf('lot:1')], beside: () => [refOf('lot:1')] };
    expect(finishTrace(walkTrace([refOf('lot:1')], round)).found).toHaveLength(1);
  });
});

describe('the picture of a trace', () => {
  const nodes = [
    { key: 'lot', kind: 'fish-lot', title: 'F1', side: 'back' }, { key: 'batch', kind: 'batch', title: 'B', side: 'start' },
    ...['1', '2', '3'].map((id) => ({ key: `pack${id}`, kind: 'pack', title: `B-${id}`, side: 'forward' })),
    { key: 'guest', kind: 'recipient', title: 'G', side: 'forward' }, { key: 'freezer', kind: 'place', title: 'F', side: 'forward' },
  ];
  const edges = [
    { from: 'lot', to: 'batch' }, ...['1', '2', '3'].map((id) => ({ from: 'batch', to: `pack${id}` })),
    { from: 'pack1', to: 'guest' }, { from: 'pack2', to: 'guest' }, { from: 'pack3', to: 'freezer' },
  ];

  it('draws packs that share where they came from and where they went as one box, and loses none', () => {
    const { boxes, lines } = layOutTrace(nodes, edges);
    expect(boxes.map((box) => box.nodes.map((node) => node.key))).toEqual([['lot'], ['batch'], ['pack1', 'pack2'], ['pack3'], ['guest'], ['freezer']]);
    expect(lines.map(({ key }) => key)).toEqual(['lot>batch', 'batch>pack1', 'batch>pack3', 'pack1>guest', 'pack3>freezer']);
  });

  it('puts each kind into its column from source to hand, boxes never on top of each other', () => {
    const { boxes, width, height } = layOutTrace(nodes, edges);
    expect([...new Set(boxes.toSorted((one, other) => one.x - other.x).map((box) => box.column))]).toEqual([1, 2, 4, 5]);
    const spots = boxes.map(({ x, y }) => `${x} ${y}`);
    expect(new Set(spots).size).toBe(spots.length);
    for (const { x, y } of boxes) {
      expect(x).toBeLessThan(width);
      expect(y).toBeLessThan(height);
    }
  });
});
