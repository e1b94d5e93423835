import react from '@vitejs/plugin-react';
import { defineConfig } from 'electron-vite';

/**
 * zod tries once whether it may compile code, which the content policy forbids and reports. Its setting
 * against that must stand before its first line, in whichever file of the build that comes to lie.
 */
const ZOD_WITHOUT_COMPILING = 'globalThis.__zod_globalConfig ??= { jitless: true };';

export default defineConfig({
  main: {
    build: {
      // zod inside the bundle starts faster; everything else, better-sqlite3 above all, stays a package.
      externalizeDeps: { exclude: ['zod'] },
      rollupOptions: {
        input: { index: 'main/index.ts', backroom: 'main/backroom/worker.ts', hand: 'main/backroom/hands/hand.ts' },
      },
    },
  },
  preload: {
    build: {
      rollupOptions: {
        input: { index: 'main/preload/index.ts' },
        // A sandboxed window loads only CommonJS.
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: 'renderer',
    plugins: [react()],
    build: { minify: true, rollupOptions: { input: 'renderer/index.html', output: { banner: ZOD_WITHOUT_COMPILING } } },
  },
});
