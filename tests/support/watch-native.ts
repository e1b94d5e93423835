/** Preloaded into a process: says at its end which native parts were loaded. */
const loaded: string[] = [];
const load = process.dlopen;

process.dlopen = (...given: Parameters<typeof load>) => {
  loaded.push(given[1]);
  return load.apply(process, given);
};

process.on('exit', () => {
  process.stderr.write(`native parts loaded: ${loaded.length === 0 ? 'none' : loaded.join(', ')}\n`);
});
