/** What `npm run check` looks at, in its order. */
import type { Step } from './step.ts';

/** Fewer files than this were never the whole program: the tool didn't find them. */
const FEWEST_FILES = 400;

export const TYPES: Step = { name: 'types', packageName: 'typescript', programName: 'tsc', values: ['--build'] };
export const LINT: Step = {
  name: 'lint',
  packageName: 'oxlint',
  programName: 'oxlint',
  values: ['--config', '.oxlintrc.json', '--deny-warnings', '.'],
  floor: { count: /on (\d+) files/, fewest: FEWEST_FILES },
};
export const ARCHITECTURE: Step = {
  name: 'import rules and planted faults',
  packageName: 'vitest',
  programName: 'vitest',
  values: ['run', '--config', 'tests/vitest.config.ts', '--reporter', 'dot', 'tests/architecture'],
  floor: { count: /Tests +(?:\d+ failed \| )?(\d+) passed/, fewest: 150 },
};
export const UNUSED: Step = { name: 'unused code', packageName: 'knip', programName: 'knip', values: ['--no-progress', '--treat-config-hints-as-errors'] };
