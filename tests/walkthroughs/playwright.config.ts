import { defineConfig } from '@playwright/test';
import { findBrowser } from '../support/find-browser.ts';

export default defineConfig({
  workers: 1,
  retries: 0,
  forbidOnly: true,
  timeout: 120_000,
  reporter: 'list',
  outputDir: '../../test-results',
  globalSetup: '../support/prepare-run.ts',
  use: {
    locale: 'en-US',
    screenshot: 'only-on-failure',
    actionTimeout: 15_000,
    launchOptions: findBrowser().launchOptions,
  },
  projects: [
    { name: 'walkthroughs', testDir: '.', testMatch: '**/*.spec.ts' },
    { name: 'window', testDir: '../window', testMatch: '**/*.spec.ts' },
  ],
});
