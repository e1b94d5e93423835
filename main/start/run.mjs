/**
 * What `npm start` and `npm run ask` run. Plain JavaScript without imports of ours: it must say its
 * sentence even on a Node that can't read TypeScript.
 */
const [command, ...rest] = process.argv.slice(2);
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);

if (major < 22 || (major === 22 && minor < 18)) {
  process.stderr.write(
    `Alderbook needs Node 22.18 or newer, and this is Node ${process.versions.node}. ` +
      'On Linux x64 start it with npm start or npm run ask after npm ci: they bring their own Node. Elsewhere install a newer Node from nodejs.org.\n',
  );
  process.exit(1);
}

if (command === 'ask') {
  const { enableCompileCache } = await import('node:module');
  const { fileURLToPath } = await import('node:url');
  // Halves the time of a short question; where the folder can't be written it is simply not used.
  enableCompileCache(fileURLToPath(new URL('../../out/compile-cache', import.meta.url)));
  const { runAsk } = await import('./ask.ts');
  process.exitCode = await runAsk(rest);
} else if (command === 'start') {
  const { start } = await import('./start.ts');
  process.exitCode = await start(rest);
} else {
  process.stderr.write('Run it with npm start or npm run ask.\n');
  process.exitCode = 1;
}
