import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';
import { BROWSER_ARGS, findBrowser } from './src/tools/browser.mjs';
import { ensureKernel } from './src/tools/kernel.mjs';

await ensureKernel();

// The builds themselves (frame, libraries, host) are put together in src/tools/build.ts.
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/{browser,e2e,checks,bench}/**'],
          // Only against tests that never end; a slow machine is not a fault.
          testTimeout: 120_000,
        },
      },
      { test: { name: 'checks', include: ['tests/checks/**/*.test.ts'], testTimeout: 120_000 } },
      {
        // Found only while tests run, they would make the page reload in the middle of one.
        optimizeDeps: { include: ['idb', 'arquero', 'd3-array', 'd3-dsv', '@observablehq/plot'] },
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            instances: [{ browser: 'chromium' }],
            provider: playwright({
              launchOptions: {
                executablePath: findBrowser() ?? undefined,
                args: BROWSER_ARGS,
              },
            }),
          },
        },
      },
      {
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          fileParallelism: false,
          // As above; what is waited for has limits of its own.
          testTimeout: 300_000,
          hookTimeout: 300_000,
          expect: { poll: { timeout: 20_000 } },
        },
      },
    ],
  },
});
