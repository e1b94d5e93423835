/** Gives every property of a run the one seed that the run prints; `FC_SEED` repeats it. */
import fc from 'fast-check';

const given = process.env['FC_SEED'];

if (given !== undefined) {
  const seed = Number(given);
  if (!Number.isInteger(seed)) throw new Error(`FC_SEED must be a whole number, and it is “${given}”.`);
  fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
}
