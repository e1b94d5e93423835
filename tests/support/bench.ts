/**
 * `npm run bench`: what must stay quick, measured on this machine. One line a bench; exit 1 where a limit isn't met.
 * `--only NAME` runs one.
 */
import { cpus, totalmem } from 'node:os';
import { parseArgs } from 'node:util';
import type { BenchResult } from '../benches/bench.ts';
import { runJudgeBench } from '../benches/judge-bench.ts';

const BENCHES: Readonly<Record<string, () => BenchResult | Promise<BenchResult>>> = {
  judge: runJudgeBench,
};

const { values } = parseArgs({ options: { only: { type: 'string' } } });
const names = values.only === undefined ? Object.keys(BENCHES) : [values.only];

process.stdout.write(`${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}\n`);
for (const name of names) {
  const bench = BENCHES[name];
  if (bench === undefined) {
    process.stderr.write(`There is no bench called “${name}”; there are ${Object.keys(BENCHES).join(', ')}.\n`);
    process.exitCode = 1;
    continue;
  }
  const result = await bench();
  process.stdout.write(`${result.name}  ${result.measured}  ${result.limit}  ${result.isMet ? 'met' : 'missed'}\n  ${result.detail}\n`);
  if (!result.isMet) process.exitCode = 1;
}
