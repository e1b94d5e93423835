import { describe, expect, it } from 'vitest';
import { Failure } from '../../app/contract/envelope.ts';
import { openSmallRoom, refused } from '../support/small-room.ts';

const scale = {
  recipe: { name: 'Plain', ingredients: [{ id: 'water', parts: 1 }, { id: 'salt', parts: 1 }], salt: { ingredientId: 'salt' } },
  filletGrams: 1000, ratio: 1, target: { brinePercent: 10 },
};
const judge = { process: 'hot', readings: { unit: 'F', places: [{ name: 'a', role: 'piece', points: [[0, 145]] }] } };
const receive = {
  source: { kind: 'guest', ownerName: 'O' }, speciesId: 's', form: 'whole', pieces: 1, caughtAtMs: null, icedAtMs: null, receivedAtMs: 0, note: '',
  mass: { text: '1', unit: 'kg' }, temperature: null,
};

describe('a request’s name', () => {
  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', '', 'brine', 'BRINE.STRENGTH', 'brine.strength ', 'front.print'])('“%s” is no request', async (name) => {
    const error = await refused(await openSmallRoom({}, { book: false }), name, {});
    expect(error).toMatchObject({ code: 'UNKNOWN_REQUEST', message: `There is no request “${name}”.`, retryable: false });
  });
  it.each([[null], [undefined], [1], [{}], [['brine.strength']], [{ toString: () => 'brine.strength' }]])('%s is no request', async (name) => {
    const small = await openSmallRoom({}, { book: false });
    const reply = await small.room.ask(name, {}, { front: 'ask', device: '', personId: null, commandId: null });
    expect(reply).toMatchObject({ ok: false, error: { code: 'UNKNOWN_REQUEST', message: 'A request needs a name.' } });
  });
});

describe('an input that does not fit', () => {
  it.each([
    ['a wrong type', 'brine.strength', { percentByWeight: '10' }, ['percentByWeight'], 'percentByWeight must be a number.'],
    ['a number that JSON can’t write', 'brine.strength', { percentByWeight: NaN }, ['percentByWeight'], 'percentByWeight must be a number.'],
    ['null for a number', 'brine.strength', { percentByWeight: null }, ['percentByWeight'], 'percentByWeight must be a number.'],
    ['an unknown key', 'brine.strength', { percentByWeight: 10, percent: 10 }, ['percent'], 'percent is not known here.'],
    ['a key called __proto__', 'brine.strength', JSON.parse('{"percentByWeight":10,"__proto__":{"x":1}}'), ['__proto__'], '__proto__ is not known here.'],
    ['a key called constructor', 'brine.strength', { constructor: 1 }, ['constructor'], 'constructor is not known here.'],
    ['a key called toString', 'brine.strength', { toString: 1 }, ['toString'], 'toString is not known here.'],
    ['no object at all', 'brine.strength', 7, [], 'The input must be an object.'],
    ['nothing', 'brine.strength', undefined, [], 'The input must be an object.'],
    ['a list', 'brine.strength', [], [], 'The input must be an object.'],
    ['a missing key', 'recipe.scale', { ...scale, ratio: undefined }, ['ratio'], 'ratio is missing; it must be a number.'],
    ['a wrong key deep inside', 'recipe.scale', { ...scale, recipe: { ...scale.recipe, ingredients: [{ id: 'water', parts: 1 }, { id: 'salt', parts: 'x' }] } }, ['recipe', 'ingredients', 1, 'parts'], 'recipe.ingredients[1].parts must be a number.'],
    ['an unknown key deep inside', 'recipe.scale', { ...scale, recipe: { ...scale.recipe, salt: { ingredientId: 'salt', grams: 1 } } }, ['recipe', 'salt', 'grams'], 'recipe.salt.grams is not known here.'],
    ['a target of a wrong type', 'recipe.scale', { ...scale, target: { brineSalometer: 'x' } }, ['target', 'brineSalometer'], 'target.brineSalometer must be a number.'],
    ['a word that is none of the known', 'log.judge', { ...judge, process: 'warm' }, ['process'], 'process must be one of "hot", "cold".'],
    ['a point without its value', 'log.judge', { ...judge, readings: { unit: 'F', places: [{ name: 'a', role: 'piece', points: [[0]] }] } }, ['readings', 'places', 0, 'points', 0], 'readings.places[0].points[0] must be at least 2 items long.'],
    ['a point that is no list', 'log.judge', { ...judge, readings: { unit: 'F', places: [{ name: 'a', role: 'piece', points: ['x'] }] } }, ['readings', 'places', 0, 'points', 0], 'readings.places[0].points[0] must be a list.'],
    ['a number over its limit', 'fishLot.receive', { ...receive, pieces: 10_001 }, ['pieces'], 'pieces must be at most 10000.'],
    ['a number under its limit', 'fishLot.receive', { ...receive, pieces: 0 }, ['pieces'], 'pieces must be at least 1.'],
    ['half a piece', 'fishLot.receive', { ...receive, pieces: 1.5 }, ['pieces'], 'pieces must be a whole number.'],
    ['a text of spaces where words belong', 'fishLot.receive', { ...receive, source: { kind: 'guest', ownerName: '  ' } }, ['source', 'ownerName'], 'source.ownerName must be at least 1 character long.'],
    ['a kind that is none of the known', 'fishLot.receive', { ...receive, source: { kind: 'found' } }, ['source', 'kind'], 'source.kind must be one of "guest", "supplier".'],
    ['a key of another kind', 'fishLot.receive', { ...receive, source: { kind: 'guest', ownerName: 'O', supplierLot: '1' } }, ['source', 'supplierLot'], 'source.supplierLot is not known here.'],
    ['a text too long', 'record.find', { text: 'x'.repeat(101) }, ['text'], 'text must be at most 100 characters long.'],
    ['a key of a record that is no text', 'readings.preview', { fileId: 'f', answers: { unit: 1 }, loadId: null }, ['answers', 'unit'], 'answers.unit must be text.'],
    ['a day in the wrong order', 'lab.record', { batchId: 'b', sampledOn: '25.11.2026', sample: 's', laboratory: 'l', saltPercent: '3', moisturePercent: '60', nitritePpm: null }, ['sampledOn'], 'sampledOn is not written as it must be here.'],
  ])('%s is named with its field', async (_what, name, input, path, message) => {
    const error = await refused(await openSmallRoom({}, { book: false }), name, input);
    expect(error.code).toBe('INVALID_INPUT');
    expect(error.fields?.[0]).toEqual({ path, message });
    expect(error.message.startsWith(message)).toBe(true);
    expect(Failure.safeParse(error).success).toBe(true);
  });
  it('names every field at fault and counts the others', async () => {
    const error = await refused(await openSmallRoom({}, { book: false }), 'brine.strength', { percentByWeight: 'x', a: 1, b: 2 });
    expect(error.message).toBe('percentByWeight must be a number. And 2 more.');
    expect(error.fields?.map((field) => field.path)).toEqual([['percentByWeight'], ['a'], ['b']]);
  });
  it('of a hundred thousand wrong readings tells the first fifty', async () => {
    const places = [{ name: 'a', role: 'piece', points: Array.from({ length: 100_000 }, () => 'x') }];
    const error = await refused(await openSmallRoom({}, { book: false }), 'log.judge', { ...judge, readings: { unit: 'F', places } });
    expect(error.fields).toHaveLength(50);
    expect(error.message).toBe('readings.places[0].points[0] must be a list. And 99999 more.');
  });
});

describe('a service', () => {
  it('gets the parsed value, not what was sent', async () => {
    const got: unknown[] = [];
    const small = await openSmallRoom({
      'book.propose': (_room, input) => {
        got.push(input);
        return { setId: 'home', setName: 'Home', why: '', choices: [] };
      },
    }, { book: false });
    const sent = { kind: 'home', region: 'Ohio' };
    await small.room.ask('book.propose', sent, { front: 'browser', device: '', personId: null, commandId: null });
    expect(got).toEqual([sent]);
    expect(got[0]).not.toBe(sent);
  });
  it('whose answer does not fit the contract has failed, with a reference that the log has too', async () => {
    const wrong = { setId: 7, setName: 'Home', why: '', choices: [] } as unknown as { setId: string; setName: string; why: string; choices: [] };
    const small = await openSmallRoom({ 'book.propose': () => wrong }, { book: false });
    const error = await refused(small, 'book.propose', { kind: 'home', region: '' });
    expect(error).toMatchObject({ code: 'INTERNAL', retryable: false, message: 'Alderbook could not do this; the fault is ours.' });
    expect(error.reference).toMatch(/^[0-9a-f-]{36}$/);
    expect(small.lines.at(-1)).toMatchObject({ level: 'error', what: 'book.propose', outcome: 'INTERNAL', reference: error.reference });
    expect(small.lines.at(-1)?.detail).toContain('does not fit the contract');
  });
  it('that throws has failed without a word of it reaching the person', async () => {
    const small = await openSmallRoom({
      'book.propose': () => {
        throw new Error('SELECT secret FROM kitchen/book.ts');
      },
    }, { book: false });
    const error = await refused(small, 'book.propose', { kind: 'home', region: '' });
    expect(error.code).toBe('INTERNAL');
    expect(JSON.stringify(error)).not.toMatch(/secret|kitchen\/book|at /);
    expect(small.lines.at(-1)?.detail).toContain('SELECT secret');
  });
});
