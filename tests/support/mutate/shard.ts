/** A process of the mutation run: one warm vitest over the copy, trying its share of the mutants. */
import path from 'node:path';
import { BaseSequencer, startVitest, type TestSpecification } from 'vitest/node';
import { instrumentAll, relatedTests } from './program-copy.ts';

const FOLDER = path.resolve(import.meta.dirname, '../../..');
const tests = relatedTests(FOLDER);
const { texts } = instrumentAll(FOLDER);

/** The tests in the order that was reckoned. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const placeOf = ({ moduleId }: TestSpecification) => tests.indexOf(path.relative(FOLDER, moduleId));
    return [...files].sort((left, right) => placeOf(left) - placeOf(right));
  }
}

const vitest = await startVitest(tests.map((name) => path.join(FOLDER, name)), {
  config: false, root: FOLDER, watch: false, include: tests, environment: 'node', testTimeout: 120_000, teardownTimeout: 10_000,
  setupFiles: ['tests/support/property-seed.ts', 'tests/support/mutate/switchboard.ts'],
  pool: 'threads', isolate: false, fileParallelism: false, maxWorkers: 1, reporters: [{}], sequence: { sequencer: QuickFirst },
}, {
  plugins: [{
    name: 'mutants',
    enforce: 'pre',
    transform(_code, id) {
      return texts.get(path.relative(FOLDER, id.split('?')[0] ?? id));
    },
  }],
});
await vitest.close();
process.exit(0);
