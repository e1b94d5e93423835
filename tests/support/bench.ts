/**
 * `npm run bench`: what must stay quick, measured on this machine. One line a figure; exit 1 where a limit isn't met.
 * `--only NAME` runs one, `--brief` fewer runs of each.
 */
import { cpus, totalmem } from 'node:os';
import { parseArgs } from 'node:util';
import type { BenchOptions, BenchResult } from '../benches/bench.ts';
import { runAppendLiveBench } from '../benches/append-live-bench.ts';
import { runImportBench } from '../benches/import-bench.ts';
import { runJudgeBench } from '../benches/judge-bench.ts';
import { runLabelsPdfBench } from '../benches/labels-pdf-bench.ts';
import { runBigBookBench } from '../benches/open-in-big-book-bench.ts';
import { runOpenLoadBench } from '../benches/open-load-bench.ts';
import { runExportYearBench } from '../benches/export-year-bench.ts';
import { runTraceBench } from '../benches/trace-bench.ts';
import { runStoredSizeBench } from '../benches/stored-size-bench.ts';
import { runWindowBlockBench } from '../benches/window-block-bench.ts';

const BENCHES: Readonly<Record<string, (options: BenchOptions) => BenchResult | Promise<BenchResult | BenchResult[]>>> = {
  judge: runJudgeBench,
  import: runImportBench,
  'stored-size': runStoredSizeBench,
  'append-live': runAppendLiveBench,
  'open-load': runOpenLoadBench,
  'open-in-big-book': runBigBookBench,
  'window-block': runWindowBlockBench,
  'labels-pdf': runLabelsPdfBench,
  trace: runTraceBench,
  'export-year': runExportYearBench,
};

const { values } = parseArgs({ options: { only: { type: 'string' }, brief: { type: 'boolean', default: false } } });
const names = values.only === undefined ? Object.keys(BENCHES) : [values.only];

process.stdout.write(`${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.versions.node}\n`);
for (const name of names) {
  const bench = Object.hasOwn(BENCHES, name) ? BENCHES[name] : undefined;
  if (bench === undefined) {
    process.stderr.write(`There is no bench called “${name}”; there are ${Object.keys(BENCHES).join(', ')}.\n`);
    process.exitCode = 1;
    continue;
  }
  const results = await bench({ brief: values.brief });
  for (const { name: figure, measured, limit, isMet, detail } of Array.isArray(results) ? results : [results]) {
    process.stdout.write(`${figure}  ${measured}  ${limit}  ${isMet ? 'met' : 'missed'}\n  ${detail}\n`);
    if (!isMet) process.exitCode = 1;
  }
}
