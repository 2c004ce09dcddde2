import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    reporters: ['default', './tests/support/count.reporter.ts'],
    projects: [
      { test: { name: 'unit', include: ['tests/**/*.test.ts'], exclude: ['tests/e2e/**'], testTimeout: 60_000 } },
      {
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.test.ts'],
          globalSetup: ['tests/e2e/setup.ts'],
          fileParallelism: false,
          testTimeout: 90_000,
          hookTimeout: 90_000,
        },
      },
    ],
  },
});
