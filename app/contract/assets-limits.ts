/** Schemas of `assets/limits`, and the book of limits built from them: sources and species groups filled in, every id known. */
import { z } from 'zod';
import type { Answer, Check, Conditions, LimitBook, LimitSet, Source } from '../limits/limit-set.ts';
import type { OwnSet } from '../limits/own-set.ts';

const Word = z.string().min(1);
const Key = z.string().regex(/^[a-z0-9][a-z0-9.-]*$/);
const CheckId = z.string().regex(/^[A-Z][A-Z0-9.-]*$/);
const Decimal = z.string().regex(/^-?\d+(\.\d+)?$/);
const Minutes = z.int().positive();

const Text = z.strictObject({ publisher: Word, title: Word, section: Word, year: z.int().min(1900).max(2100).nullable() });
const Cited = z.strictObject({ text: Key, mark: z.enum(['read', 'second-hand', 'from memory', 'computed', 'common practice']) });
const Question = z.enum(['raw', 'thaw', 'brine', 'dry', 'chamber', 'cooling', 'exposure', 'parasite', 'salt', 'pack', 'store', 'record']);
const Role = z.enum(['piece', 'chamber', 'room', 'brine', 'store']);
const FigureFile = z.strictObject({ value: Decimal, unit: z.enum(['F', 'C']) });
/** A scientific name, or `@` and the name of a group of the same file. */
const SpeciesName = z.string().regex(/^(@[a-z]+|[A-Z][a-z]+ [a-z]+)$/);

const ConditionsFile = z.strictObject({
  process: z.enum(['hot', 'cold']).optional(),
  species: z.array(SpeciesName).min(1).optional(),
  notSpecies: z.array(SpeciesName).min(1).optional(),
  pack: z.array(z.enum(['vacuum', 'air', 'unpacked'])).min(1).optional(),
  store: z.enum(['refrigerated', 'frozen']).optional(),
  nitrite: z.enum(['found', 'permitted']).optional(),
  cure: z.enum(['wet', 'dry']).optional(),
  wasFrozen: z.boolean().optional(),
  driedApart: z.boolean().optional(),
  withoutVariance: z.boolean().optional(),
});

const common = {
  id: CheckId,
  title: Word,
  question: Question,
  gate: z.enum(['brine', 'smoke', 'pack', 'leave']),
  conditions: ConditionsFile.optional(),
  relaxes: z.boolean().optional(),
};
const NitriteRange = z.strictObject({ least: Decimal, most: Decimal });

/** A day of a calendar, such as 2026-07-14. */
const Day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const Count = z.int().positive();

/** Every kind of check; its sources cited by key in a file, written out in a stored set. */
function checkOf<S extends z.ZodType>(source: S) {
  const base = { ...common, sources: z.array(source).min(1) };
  return z.discriminatedUnion('kind', [
    z.strictObject({ ...base, kind: z.literal('hold'), limit: FigureFile, minutes: Minutes }),
    z.strictObject({ ...base, kind: z.literal('freeze'), limit: FigureFile, minutes: Minutes, reads: z.enum(['pieces', 'pieces-or-store']), untilSolid: FigureFile.optional() }),
    z.strictObject({
      ...base, kind: z.literal('ceiling'), limit: FigureFile, below: z.boolean().optional(),
      reads: z.enum([...Role.options, 'water']), record: z.enum(['process', 'soak', 'freezer', 'store', 'raw', 'thaw', 'dry']), minutes: Minutes.optional(),
      stretch: z.enum(['whole', 'once-chilled']), gap: z.enum(['ceiling', 'frozen-store']),
    }),
    z.strictObject({
      ...base, kind: z.literal('descent'), from: FigureFile.optional(),
      targets: z.array(z.strictObject({ limit: FigureFile, minutes: Minutes })).min(1), clock: z.enum(['shared', 'separate']),
    }),
    z.strictObject({ ...base, kind: z.literal('probe-count'), pieces: Count }),
    z.strictObject({ ...base, kind: z.literal('brine-start'), limit: FigureFile }),
    z.strictObject({ ...base, kind: z.literal('soak-room'), limit: FigureFile, overMinutes: Minutes }),
    z.strictObject({ ...base, kind: z.literal('water-phase-salt'), percent: Decimal, nitritePpm: NitriteRange.optional(), frozenStandsIn: z.boolean() }),
    z.strictObject({ ...base, kind: z.literal('total-salt'), percent: Decimal, frozenStandsIn: z.boolean() }),
    z.strictObject({ ...base, kind: z.literal('nitrite-maximum'), ppm: Decimal }),
    z.strictObject({ ...base, kind: z.literal('nitrite-none') }),
    z.strictObject({ ...base, kind: z.literal('unmeasured'), what: Word }),
    z.strictObject({ ...base, kind: z.literal('frozen-before-seal') }),
    z.strictObject({ ...base, kind: z.literal('pack-ban') }),
    z.strictObject({ ...base, kind: z.literal('no-figure') }),
    z.strictObject({ ...base, kind: z.literal('presence'), batches: Count, freshMinutes: Minutes.optional() }),
    z.strictObject({ ...base, kind: z.literal('review'), days: Count }),
    z.strictObject({
      ...base, kind: z.literal('permission'), proof: z.enum(['permission', 'variance', 'fed-pellets', 'frozen-by-supplier', 'manager-initials', 'species']),
      stated: z.array(z.strictObject({ limit: FigureFile, hours: Count })).min(1).optional(),
    }),
    z.strictObject({ ...base, kind: z.literal('calibration'), within: z.union([z.literal('day'), z.strictObject({ months: Count })]) }),
    z.strictObject({ ...base, kind: z.literal('retention'), from: z.enum(['made', 'served']), length: z.union([z.strictObject({ years: Count }), z.strictObject({ days: Count })]) }),
    z.strictObject({ ...base, kind: z.literal('label'), lifeDays: Count.optional(), openedHours: Count.optional() }),
    z.strictObject({ ...base, kind: z.literal('film'), oxygenRate: Decimal }),
  ]);
}

/** One check of `checks.json`. */
export const CheckFile = checkOf(Cited);

/** `assets/limits/checks.json`: texts cited, groups of species, and every check. */
export const ChecksFile = z.strictObject({
  texts: z.record(Key, Text),
  speciesGroups: z.record(z.string().regex(/^[a-z]+$/), z.array(z.string().regex(/^[A-Z][a-z]+ [a-z]+$/)).min(1)),
  checks: z.array(CheckFile).min(1),
});

/** One answer of a set; its own citations as in the checks. */
function answerOf<S extends z.ZodType>(source: S) {
  return z.strictObject({
    question: Question,
    when: ConditionsFile.optional(),
    checks: z.array(CheckId).min(1).optional(),
    oneOf: z.array(CheckId).min(2).optional(),
    noFigure: Word.optional(),
    together: z.boolean().optional(),
    besides: z.boolean().optional(),
    cites: z.record(CheckId, source).optional(),
  }).refine((answer) => [answer.checks, answer.oneOf, answer.noFigure].filter((part) => part !== undefined).length === 1, 'An answer holds checks, oneOf or noFigure.');
}

const named = { id: Key, name: Word, version: Word, effectiveFrom: Day, effectiveUntil: Day.optional(), readInFull: z.boolean(), note: Word, correctiveActs: z.array(Word).min(1) };

/** One set: `assets/limits/<set-id>.json`. */
export const LimitSetFile = z.strictObject({ ...named, answers: z.array(answerOf(Cited)).min(1) });

const WrittenSource = z.strictObject({ ...Text.shape, mark: Cited.shape.mark });

/** A kitchen's own set as the book keeps it: sources and species written out, so that it stands without the files it was made from. */
export const StoredOwnSet = z.strictObject({
  ...named,
  answers: z.array(answerOf(WrittenSource)).min(1),
  base: z.strictObject({ setId: Key, version: Word }),
  letter: z.strictObject({ authority: Word, number: Word, writtenOn: Day, fileId: Word }).optional(),
  changes: z.array(z.strictObject({
    checkId: CheckId, ownId: CheckId, way: z.enum(['tightened', 'loosened', 'letter']),
    figures: z.array(z.strictObject({ field: Word, value: Decimal, unit: z.enum(['F', 'C']).optional() })).min(1),
    varianceNumber: Word.optional(),
  })),
  ownChecks: z.array(checkOf(WrittenSource)),
}).transform((stored): OwnSet => stored);

/**
 * The book of limits.
 * @param checksJson the parsed `checks.json`
 * @param setsJson the parsed set files, in any order
 * @throws when a file does not fit its schema, an id stands twice, or a text, species group or check is not there
 */
export function bookOfLimits(checksJson: unknown, setsJson: readonly unknown[]): LimitBook {
  const file = ChecksFile.parse(checksJson);
  const cite = (cited: z.output<typeof Cited>): Source => {
    const text = file.texts[cited.text];
    if (text === undefined) throw new Error(`no text “${cited.text}”`);
    return { ...text, mark: cited.mark };
  };
  const fill = (conditions: Conditions | undefined): Conditions | undefined => conditions && {
    ...conditions,
    species: conditions.species && namesOf(conditions.species, file.speciesGroups),
    notSpecies: conditions.notSpecies && namesOf(conditions.notSpecies, file.speciesGroups),
  };
  const checks: Check[] = file.checks.map((check) => ({ ...check, conditions: fill(check.conditions), sources: check.sources.map(cite) }));
  refuseTwice(checks.map((check) => check.id));
  const known = new Set(checks.map((check) => check.id));
  const sets: LimitSet[] = setsJson.map((json) => LimitSetFile.parse(json)).map((set) => ({
    ...set,
    answers: set.answers.map((answer): Answer => {
      for (const id of [...(answer.checks ?? []), ...(answer.oneOf ?? []), ...Object.keys(answer.cites ?? {})]) {
        if (!known.has(id)) throw new Error(`${set.id} names ${id}, which is no check`);
      }
      return {
        ...answer,
        when: fill(answer.when),
        cites: answer.cites && Object.fromEntries(Object.entries(answer.cites).map(([id, cited]) => [id, cite(cited)])),
      };
    }),
  }));
  refuseTwice(sets.map((set) => set.id));
  return { checks, sets };
}

function namesOf(names: readonly string[], groups: Readonly<Record<string, readonly string[]>>): string[] {
  return names.flatMap((name) => {
    if (!name.startsWith('@')) return [name];
    const group = groups[name.slice(1)];
    if (group === undefined) throw new Error(`no group of species “${name}”`);
    return group;
  });
}

function refuseTwice(ids: readonly string[]): void {
  const twice = ids.find((id, index) => ids.indexOf(id) !== index);
  if (twice !== undefined) throw new Error(`${twice} stands twice`);
}
