import { describe, expect, it } from 'vitest';
import { likelyPlace, likelyPoints, type NamedPoint } from '../../main/backroom/services/column-names.ts';

const POINTS: NamedPoint[] = [
  { id: 'a', name: 'Top rack, thick', role: 'piece', instrumentName: 'Probe 1' },
  { id: 'b', name: 'Middle rack', role: 'piece', instrumentName: 'Probe 2' },
  { id: 'c', name: 'Fish 7', role: 'piece', instrumentName: '' },
  { id: 'air', name: 'Chamber', role: 'chamber', instrumentName: 'Probe 4' },
];

describe('the point that a column of a file most likely belongs to', () => {
  it('goes by the name of the probe, whatever follows it', () => {
    expect(likelyPoints(['Probe 1 (°F)', 'probe 2', 'PROBE 4 [F]'], POINTS)).toEqual(['a', 'b', 'air']);
  });
  it('goes by the number where only that agrees', () => {
    expect(likelyPoints(['T2', 'Core 1', 'Channel 7'], POINTS)).toEqual(['b', 'a', 'c']);
  });
  it('knows the words for the air in a smoker', () => {
    for (const heading of ['Pit temp', 'Smoker', 'Air', 'Chamber °C']) expect(likelyPoints([heading], POINTS)).toEqual(['air']);
  });
  it('proposes nothing where it can’t tell, and no point twice', () => {
    expect(likelyPoints(['Temperature', 'Probe 21', 'T1', 'Core 1'], POINTS)).toEqual([null, null, 'a', null]);
  });
  it('does not take the chamber’s number for a piece’s', () => {
    expect(likelyPoints(['T4'], POINTS)).toEqual([null]);
  });
});

describe('the place that a file most likely belongs to', () => {
  const places: NamedPoint[] = [
    { id: 'f', name: 'Chest freezer', role: 'store', instrumentName: '' },
    { id: 'w', name: 'Walk-in cooler', role: 'store', instrumentName: '' },
  ];
  it('is the one named by the file or its column', () => {
    expect(likelyPlace('chest-freezer_2026-03.csv', 'Temp', places)).toBe('f');
    expect(likelyPlace('log.csv', 'Walk-in cooler (F)', places)).toBe('w');
  });
  it('is the only one there is, and otherwise unknown', () => {
    expect(likelyPlace('log.csv', 'Temp', places.slice(0, 1))).toBe('f');
    expect(likelyPlace('log.csv', 'Temp', places)).toBeNull();
  });
});
