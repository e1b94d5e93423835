import { describe, expect, it } from 'vitest';
import type { Feed } from '../../app/contract/requests/feeds.ts';
import { emptyForm, formOf, linkOf, ordersOf, withFeedKind, withType } from '../../renderer/places/office/feed-draft.ts';

const ABOUT = { id: 'feed', name: 'Box', isOn: true, savedAtMs: 1, savedBy: 'CH', clientId: 'alderbook-1' } as const;
const MODBUS: Feed = {
  ...ABOUT,
  link: { kind: 'modbus', host: 'box', port: 502, unitId: 3, pollSeconds: 2, countsFrom: 0, channels: [{ instrumentId: 'i', placeId: null, unit: 'C', register: 12, table: 'input', type: 'float32', order: 'word-swapped', scale: '1', offset: '-40' }] },
};
const MQTT: Feed = {
  ...ABOUT,
  link: { kind: 'mqtt', host: 'broker', port: 1884, user: 'probes', hasPassword: true, topicFilter: 'lodge/#', channels: [{ instrumentId: 'i', placeId: 'p', unit: 'F', topic: 'lodge/1', path: 'v', timePath: 't' }] },
};

describe('the form of a live feed', () => {
  it.each([MODBUS, MQTT])('of a feed that is there says the same again', (feed) => {
    const form = formOf(feed, 'F');
    expect(linkOf(form)).toEqual(feed.link);
    expect([form.feedId, form.name]).toEqual(['feed', 'Box']);
  });
  it('takes the port of the other kind along, unless another was typed', () => {
    expect(withFeedKind(emptyForm('F'), 'mqtt').port).toBe('1883');
    expect(withFeedKind({ ...emptyForm('F'), port: '5020' }, 'mqtt').port).toBe('5020');
  });
  it('offers no order of halves where there is one register, and no tenths for a float', () => {
    const [channel] = emptyForm('F').channels;
    if (channel === undefined) throw new Error('no channel');
    expect(withType(channel, 'float32')).toMatchObject({ type: 'float32', scale: '1' });
    expect(withType({ ...channel, type: 'int32', order: 'word-swapped' }, 'int16')).toMatchObject({ order: 'big' });
    expect(ordersOf('uint16')).toEqual(['big', 'byte-swapped']);
  });
  it('sends what is no number as none', () => {
    expect(linkOf({ ...emptyForm('F'), port: 'x' })).toMatchObject({ port: NaN });
    expect(linkOf({ ...emptyForm('F'), port: '' })).toMatchObject({ port: NaN });
    expect(linkOf({ ...emptyForm('F'), pollSeconds: '1,5' })).toMatchObject({ pollSeconds: 1.5 });
  });
});
