/** Opening a load: what may go into a smoker together, and the points that will be measured. */
import type { Parsed } from '../../../app/contract/contract.ts';
import type { Stored, StoredBatch, StoredLoad, StoredPoint } from '../book/stored.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';
import { actingPerson } from './acting.ts';
import { refuseInput } from './field-refusal.ts';
import { pointsOf } from './load-view.ts';
import { loadAsPoint } from './taken-out.ts';

type Opening = Parsed<'load.open'>;

/**
 * Makes the load, its pieces and its chamber point, and puts the batches in.
 * @throws Refusal when the smoker is taken, a batch isn't ready, processes differ, a name repeats or a probe is in two places
 */
export function openLoad(room: BookRoom, input: Opening): StoredLoad {
  const smoker = room.book.shelf('smokers').need(input.smokerId);
  const loads = room.book.shelf('loads');
  refuseTakenSmoker(room, smoker);
  const batches = readyBatches(room, input.batchIds);
  const process = oneProcess(batches);
  refuseBadPieces(input, batches);
  const chamberInstrumentId = input.chamberInstrumentId ?? smoker.chamberInstrumentId;
  refuseSharedProbes(room, input, chamberInstrumentId);

  const loadId = room.newId();
  const points: StoredPoint[] = input.pieces.map((piece) => ({
    id: room.newId(), name: piece.name, role: 'piece', batchId: piece.batchId, loadId,
    thicknessMm: piece.thicknessMm, rackPlace: piece.rackPlace, instrumentId: piece.instrumentId,
  }));
  points.push({
    id: room.newId(), name: 'Chamber', role: 'chamber', batchId: null, loadId,
    thicknessMm: null, rackPlace: '', instrumentId: chamberInstrumentId,
  });
  for (const point of points) room.book.shelf('points').put(point);

  const load: StoredLoad = {
    id: loadId, number: Math.max(0, ...loads.all().map((other) => other.number)) + 1, letter: null, smokerId: smoker.id, process,
    batchIds: input.batchIds, openedAtMs: room.clock.nowMs(), openedBy: actingPerson(room).initials,
    inAtMs: null, endOfSmokingAtMs: null, outAtMs: null, cooledAtMs: null, pointIds: points.map((point) => point.id),
  };
  loads.put(load);
  for (const batch of batches) room.book.shelf('batches').put({ ...batch, loadId });
  room.book.record({
    kind: 'load.open', subjectId: loadId, happenedAtMs: load.openedAtMs,
    summary: `Opened load ${load.number} in ${smoker.name}: ${batches.map((batch) => batch.shortName).join(', ')}; ${input.pieces.length} ${input.pieces.length === 1 ? 'piece' : 'pieces'} to measure.`,
    after: { load, points },
  });
  room.changed('load', [loadId]);
  room.changed('batch', input.batchIds);
  return load;
}

function refuseTakenSmoker(room: BookRoom, smoker: Stored<'smokers'>): void {
  const inside = room.book.shelf('loads').all().find((load) => load.smokerId === smoker.id && load.outAtMs === null);
  if (inside === undefined) return;
  throw new Refusal('RULE_BLOCKS', `Load ${inside.number} is still in ${smoker.name}.`, {
    remedy: 'Mark it out first, or choose another smoker.',
  });
}

function readyBatches(room: BookRoom, batchIds: readonly string[]): StoredBatch[] {
  if (new Set(batchIds).size !== batchIds.length) refuseInput('The same batch is named twice.', ['batchIds'], 'Name each batch once.');
  return batchIds.map((batchId) => {
    const batch = room.book.shelf('batches').need(batchId);
    if (batch.loadId !== null) {
      const load = room.book.shelf('loads').get(batch.loadId);
      throw new Refusal('RULE_BLOCKS', `${batch.shortName} is already in load ${load?.number ?? '?'}.`, {
        remedy: 'A batch goes through the smoker once; what comes after is recorded in that load.',
      });
    }
    if (!batch.soak.some((event) => event.what === 'end')) {
      throw new Refusal('RULE_BLOCKS', `The soak of ${batch.shortName} has not ended.`, {
        remedy: 'Log the end of its soak at the brine bench, then put it in.',
      });
    }
    if (isRejected(room, batchId)) {
      throw new Refusal('RULE_BLOCKS', `${batch.shortName} was rejected.`, { remedy: 'A rejected batch goes no further.' });
    }
    return batch;
  });
}

function isRejected(room: BookRoom, batchId: string): boolean {
  return room.book.shelf('decisions').where('batchId', batchId).some((decision) => decision.decision === 'reject');
}

function oneProcess(batches: readonly StoredBatch[]): StoredBatch['process'] {
  const [first, ...others] = batches;
  if (first === undefined) throw new Error('a load needs a batch');
  const odd = others.find((batch) => batch.process !== first.process);
  if (odd === undefined) return first.process;
  throw new Refusal('RULE_BLOCKS', `${first.shortName} is for ${first.process} smoking and ${odd.shortName} for ${odd.process} smoking.`, {
    remedy: 'Smoke them in two loads; what a batch was made for can’t be changed.',
  });
}

function refuseBadPieces(input: Opening, batches: readonly StoredBatch[]): void {
  const names = new Set<string>();
  for (const [index, piece] of input.pieces.entries()) {
    const name = piece.name.toLowerCase();
    if (name === 'chamber') refuseInput('“Chamber” is the name of the air in the smoker.', ['pieces', index, 'name'], 'Give the piece another name.');
    if (names.has(name)) refuseInput(`Two pieces are called “${piece.name}”.`, ['pieces', index, 'name'], 'Give each piece its own name.');
    names.add(name);
    if (!input.batchIds.includes(piece.batchId)) {
      refuseInput(`Piece “${piece.name}” is of a batch that doesn’t go into this load.`, ['pieces', index, 'batchId'], 'Choose one of the load’s batches.');
    }
  }
  for (const batch of batches) {
    if (!input.pieces.some((piece) => piece.batchId === batch.id)) {
      refuseInput(`${batch.shortName} has no piece to measure.`, ['pieces'], `Name at least one piece of ${batch.shortName}, the thickest.`);
    }
  }
}

/** A wired probe or logger can be in one place only; a hand thermometer goes from piece to piece. */
function refuseSharedProbes(room: BookRoom, input: Opening, chamberInstrumentId: string | null): void {
  const taken = probesInSmokers(room);
  const asked = [
    ...input.pieces.map((piece, index) => ({ where: `piece “${piece.name}”`, instrumentId: piece.instrumentId, path: ['pieces', index, 'instrumentId'] })),
    { where: 'the chamber', instrumentId: chamberInstrumentId, path: ['chamberInstrumentId'] },
  ];
  for (const { where, instrumentId, path } of asked) {
    if (instrumentId === null) continue;
    const instrument = room.book.shelf('instruments').need(instrumentId);
    if (instrument.kind === 'hand-thermometer') continue;
    const other = taken.get(instrumentId);
    if (other !== undefined) refuseInput(`${instrument.name} is already in ${other} and can’t be in ${where} too.`, path, 'Choose another probe, or take that one out.');
    taken.set(instrumentId, where);
  }
}

function probesInSmokers(room: BookRoom): Map<string, string> {
  const taken = new Map<string, string>();
  for (const load of room.book.shelf('loads').all()) {
    if (load.outAtMs !== null) continue;
    for (const point of pointsOf(room, load)) {
      if (point.instrumentId !== null && loadAsPoint(load, point).outAtMs === null) taken.set(point.instrumentId, `load ${load.number} (${point.name})`);
    }
  }
  return taken;
}
