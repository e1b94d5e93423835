/**
 * The first import of every built entry: stops with a sentence on a Node that is too old, before
 * anything can load the database, whose native part ends an old Node without a word.
 * It imports nothing, so that nothing can be loaded before it.
 */
const OLDEST: readonly [number, number] = [22, 18];

/** Whether a version such as `24.21.0` is at least 22.18. */
export function isNodeNewEnough(version: string): boolean {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > OLDEST[0] || (major === OLDEST[0] && minor >= OLDEST[1]);
}

if (!isNodeNewEnough(process.versions.node)) {
  process.stderr.write(
    `Alderbook needs Node ${OLDEST.join('.')} or newer, and this is Node ${process.versions.node}. ` +
      'Start it with npm start after npm ci, or install a newer Node from nodejs.org.\n',
  );
  process.exit(1);
}
