import { describe, expect, it } from 'vitest';
import { brinePlaces, proposedPlace, type PlaceNow } from '../../renderer/places/brine-bench/soak-places.ts';
import { nextOfSoak, plannedTimes } from '../../renderer/parts/soak-times.ts';
import { CARD_TYPE_POINTS, cardPageOf, fitType } from '../../renderer/print/card-fit.ts';

const HOUR = 3_600_000;
const event = (what: 'start' | 'turn' | 'end', atMs: number) => ({ what, atMs, brineTicks: null, roomTicks: null, initials: 'AB', enteredAtMs: atMs });
const card = { soakHours: 24, turnHours: [12, 4] };

describe('the times of a soak', () => {
  it('are not known before it starts', () => {
    expect(plannedTimes({ card, soak: [] })).toBeNull();
    expect(nextOfSoak({ card, soak: [] })).toBeNull();
  });
  it('count from its start, turns in their order', () => {
    expect(plannedTimes({ card, soak: [event('start', HOUR)] })).toEqual({ turnsAtMs: [5 * HOUR, 13 * HOUR], endAtMs: 25 * HOUR });
  });
  it('ask next for the turn that isn’t logged, then for the end, then for nothing', () => {
    const soak = [event('start', 0)];
    expect(nextOfSoak({ card, soak })).toEqual({ what: 'turn', atMs: 4 * HOUR });
    expect(nextOfSoak({ card, soak: [...soak, event('turn', 3 * HOUR)] })).toEqual({ what: 'turn', atMs: 12 * HOUR });
    expect(nextOfSoak({ card, soak: [...soak, event('turn', 3), event('turn', 4)] })).toEqual({ what: 'end', atMs: 24 * HOUR });
    expect(nextOfSoak({ card, soak: [...soak, event('end', 5)] })).toBeNull();
  });
});

describe('where a tub stands', () => {
  const place = (id: string, kind: PlaceNow['kind']): PlaceNow => ({ id, name: id, kind, lastTicks: null, lastAtMs: null });
  const places = [place('walk-in', 'cooler'), place('chest', 'freezer'), place('room', 'brining-room')];
  it('is a brining room or a cooler, never a freezer', () => {
    expect(brinePlaces(places).map((each) => each.id)).toEqual(['room', 'walk-in']);
  });
  it('is proposed as where the last tub stood', () => {
    expect(proposedPlace(places, [{ brinePlaceId: 'room', madeAtMs: 1 }, { brinePlaceId: 'walk-in', madeAtMs: 2 }, { brinePlaceId: null, madeAtMs: 3 }])).toBe('walk-in');
  });
  it('is proposed without one only where there is a single place', () => {
    expect(proposedPlace(places, [])).toBeNull();
    expect(proposedPlace([place('room', 'brining-room'), place('chest', 'freezer')], [])).toBe('room');
  });
  it('is not proposed as a place that is gone', () => {
    expect(proposedPlace([place('a', 'cooler'), place('b', 'cooler')], [{ brinePlaceId: 'gone', madeAtMs: 9 }])).toBeNull();
  });
});

describe('a card on its page', () => {
  it('is A5, or half a letter sheet where pounds are weighed', () => {
    expect(cardPageOf('kg')).toMatchObject({ widthMm: 148, heightMm: 210 });
    expect(cardPageOf('lb')).toMatchObject({ widthMm: 140, heightMm: 216 });
  });
  it('is set in the largest type that keeps it to one page', () => {
    const page = cardPageOf('kg');
    expect(fitType(page, () => 100)).toBe(CARD_TYPE_POINTS[0]);
    const heightAt = (points: number): number => points * 78;
    const points = fitType(page, heightAt);
    expect(points).not.toBeNull();
    expect(heightAt(points ?? 0)).toBeLessThanOrEqual((210 - 16) * 96 / 25.4);
    expect(heightAt((points ?? 0) + 0.5)).toBeGreaterThan((210 - 16 - 3) * 96 / 25.4);
  });
  it('is refused where even the smallest type runs over: nothing is cut off', () => {
    expect(fitType(cardPageOf('lb'), () => 5000)).toBeNull();
  });
});
