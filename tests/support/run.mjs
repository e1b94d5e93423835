/**
 * What `npm run check`, `npm test`, `npm run gallery`, `npm run proof`, `npm run bench`, `npm run faults` and `npm run mutants` run. Plain JavaScript: it must say its sentence
 * even on a Node that can't read TypeScript.
 */
const [, , what] = process.argv;
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);

if (major < 22 || (major === 22 && minor < 18)) {
  process.stderr.write(
    `Alderbook's tests need Node 22.18 or newer, and this is Node ${process.versions.node}. ` +
      'On Linux x64 run them with npm after npm ci, which brings its own Node. Elsewhere install a newer Node from nodejs.org.\n',
  );
  process.exit(1);
}

// What runs next finds its own arguments where they would be without this file.
process.argv.splice(2, 1);
if (what === 'check') await import('./check.ts');
else if (what === 'test') await import('./run-tests.ts');
else if (what === 'gallery') await import('./gallery.ts');
else if (what === 'proof') await import('./proof.ts');
else if (what === 'bench') await import('./bench.ts');
else if (what === 'faults') await import('./faults.ts');
else if (what === 'mutants') await import('./mutants.ts');
else {
  process.stderr.write('Run it with npm run check, npm test, npm run gallery, npm run proof, npm run bench, npm run faults or npm run mutants.\n');
  process.exitCode = 1;
}
