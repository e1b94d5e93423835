import { describe, expect, it } from 'vitest';
import { columnsOf, ROWS } from '../../renderer/print/paper-rows.ts';

const point = (id: string, role: 'piece' | 'chamber') => ({ id, role, name: id, batchId: null, thicknessMm: role === 'piece' ? 30 : null, rackPlace: role === 'piece' ? 'door side' : '', instrumentId: null, instrumentName: '' });
const LOAD = {
  id: 'l', number: 1, smokerId: 's', smokerName: 'Smoker', process: 'hot' as const, batchIds: ['b'], openedAtMs: 0, openedBy: 'MG',
  inAtMs: 0, endOfSmokingAtMs: null, outAtMs: null, cooledAtMs: null, points: [point('one', 'piece'), point('air', 'chamber')],
};

describe('a sheet for paper', () => {
  it('has the columns of the screen that it is copied to', () => {
    expect(columnsOf('smoke', LOAD).map(({ key, about }) => [key, about])).toEqual([['one', '30 mm, door side'], ['air', '']]);
    expect(columnsOf('cool', LOAD).map(({ key }) => key)).toEqual(['one']);
    expect(columnsOf('soak', null)).toHaveLength(3);
    expect(columnsOf('store', null)).toHaveLength(1);
    expect(ROWS.store).toBe(31);
  });
});
