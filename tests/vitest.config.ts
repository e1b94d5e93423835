import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/{app,backroom,published,renderer,architecture,browser}/**/*.test.{ts,tsx}'],
    environment: 'node',
    setupFiles: ['tests/support/only-this-computer.mjs', 'tests/support/property-seed.ts'],
    testTimeout: 20_000,
  },
});
