/** `npm run check`: types, lint, import rules, unused code. */
import { ARCHITECTURE, LINT, TYPES, UNUSED } from './check-steps.ts';
import { runSteps } from './step.ts';

const results = await runSteps([TYPES, LINT, ARCHITECTURE, UNUSED]);
const failed = results.filter((result) => result.failure !== null);
process.stdout.write(`\n${failed.length === 0 ? 'All checks passed.' : `Failed: ${failed.map((result) => result.name).join(', ')}.`}\n`);
process.exitCode = failed.length === 0 ? 0 : 1;
