import { defineConfig } from 'vitest/config';

// As in the command: what a test makes itself has the bytes that the command makes.
const setupFiles = ['src/arithmetic/index.ts'];
const patience = { testTimeout: 120_000, hookTimeout: 120_000 };
// What weighs the memory of the whole process, puts something in the place of a module, or breaks the geometry library, wants one to
// itself.
const alone = [
  'tests/donor/read/damage.test.ts',
  'tests/faults/failing.test.ts',
  'tests/job/ladder.test.ts',
  'tests/job/make.test.ts',
  'tests/metamorphic/finerFacets.test.ts',
  'tests/output/plate/plateOf.test.ts',
  'tests/solid/kernel.test.ts',
  'tests/solid/realise.test.ts',
];

export default defineConfig({
  test: {
    globalSetup: ['tests/cli/build.ts'],
    // By default a core is left idle; the machine that checks every change has two.
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'house',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', ...alone],
          // Files share what they import: reading some hundred modules takes longer than most of them run.
          isolate: false,
          ...{ setupFiles, ...patience },
        },
      },
      {
        test: { name: 'alone', include: alone, ...{ setupFiles, ...patience } },
      },
      {
        // What drives the page needs it built and served, and a browser; nothing else waits for that.
        test: {
          name: 'page',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/servePage.ts'],
          ...patience,
        },
      },
    ],
  },
});
