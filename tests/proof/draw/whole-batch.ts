/** Random whole batches: heat or cold, cooling, soak, freezer, store, samples and papers put together. */
import type { CaseFacts, JudgeCase } from '../../../app/limits/judge-case.ts';
import type { Dice } from '../dice.ts';
import { drawCooling } from './cooling.ts';
import { drawFreezing, drawHeat, drawStore, drawUnder } from './heat-and-cold.ts';
import { drawSamples, drawSoak } from './soak-and-salt.ts';

const SPECIES = ['Oncorhynchus nerka', 'Salvelinus namaycush', 'Coregonus hoyi', 'Anoplopoma fimbria', undefined] as const;

/** A freezing of which the time of being solid is marked, or not. */
export function drawUntilSolid(dice: Dice, limitF: number, hours: number): JudgeCase {
  const batch = drawFreezing(dice, limitF, hours);
  const times = batch.points.flatMap(({ readings }) => readings.map(({ atMs }) => atMs));
  const frozenMs = dice.pick([undefined, times[0], dice.pick([0, ...times]), dice.whole(0, 600) * 60_000]);
  return { ...batch, ...(frozenMs === undefined ? {} : { frozenMs }) };
}

/** A batch from the brine to the store, each part near its limits, some parts missing. */
export function drawBatch(dice: Dice, process: 'hot' | 'cold'): JudgeCase {
  const main = process === 'cold' ? drawUnder(dice, 'chamber', 'process', 90, 18) : dice.once(2) ? drawHeat(dice) : drawCooling(dice, { limitsF: [140, 70, 40], minutes: [120, 360] });
  const parts = [dice.once(4) ? undefined : drawSoak(dice, 60, 38), dice.once(3) ? undefined : drawFreezing(dice, -4, 168), dice.once(3) ? undefined : drawStore(dice, 38, 'refrigerated')];
  const [soak, freezer, store] = parts;
  const others = [soak, freezer, store].flatMap((part, index) => (part?.points ?? []).map((point) => ({ ...point, name: `${point.name} ${'abc'.charAt(index)}`, record: (['soak', 'freezer', 'store'] as const)[index] })));
  const species = dice.pick(SPECIES);
  const sealedMs = dice.pick([undefined, 600, 1200]);
  const frozenMs = dice.pick([undefined, 500, 1300]);
  return {
    ...main, process, points: [...main.points, ...others],
    records: { ...main.records, soak: soak?.records.soak ?? { open: false }, freezer: freezer?.records.freezer ?? { open: false }, store: store?.records.store ?? { open: false } },
    pack: dice.pick(['vacuum', 'vacuum', 'air', 'unpacked'] as const), store: dice.pick(['refrigerated', 'frozen'] as const),
    saltSamples: drawSamples(dice, 3.5, 200), facts: drawFacts(dice),
    ...(species === undefined ? {} : { species }), ...(store?.chilledMs === undefined ? {} : { chilledMs: store.chilledMs }),
    ...(sealedMs === undefined ? {} : { sealedMs: sealedMs * 60_000 }), ...(frozenMs === undefined ? {} : { frozenMs: frozenMs * 60_000 }),
  };
}

function drawFacts(dice: Dice): CaseFacts {
  const mayBe = <T>(value: T): T | undefined => (dice.once(2) ? value : undefined);
  const DAY_MS = 86_400_000;
  return {
    cure: dice.pick(['wet', 'dry', undefined]), wasFrozen: mayBe(dice.once(2)), nitriteUsed: mayBe(dice.once(3)), brineReused: mayBe(dice.once(2)),
    brineBatchNumber: mayBe(dice.whole(1, 4)), brineAgeMinutes: mayBe(dice.pick([0, 240, 241, 900])), brineFiltered: mayBe(dice.once(2)), variance: mayBe(dice.once(2)),
    sporesKilledAfterSealing: mayBe(dice.once(2)), labelledAsSealed: mayBe(dice.once(2)), driedApart: mayBe(dice.once(2)),
    review: mayBe({ recordedMs: 0, reviewedMs: mayBe(dice.pick([6, 7, 8]) * DAY_MS), reviewer: mayBe('R. Holm') }),
    labelLifeDays: mayBe(dice.pick([1, 7, 10, 14, 30])), openedPacks: mayBe([{ openedMs: 0, usedUpMs: mayBe(dice.pick([1, 2, 3]) * DAY_MS) }]), filmUsed: mayBe('F-1'),
    keeping: mayBe({ madeOn: mayBe('2026-06-01'), servedOn: mayBe('2026-06-05'), keptUntil: mayBe(dice.pick(['2026-08-30', '2027-05-31', '2027-06-01', '2028-06-01'])) }),
    onFile: mayBe([{ what: dice.pick(['permission', 'variance', 'training'] as const), number: 'N-1', holder: 'R. Holm', onFileMs: -DAY_MS, validUntilMs: mayBe(dice.pick([-1, 1, 400]) * DAY_MS) }]),
    probesUsed: mayBe(['T-1']),
  };
}
