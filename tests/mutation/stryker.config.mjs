// One area at a time; what it is stands in the environment, set by run.mjs.
export default {
  testRunner: 'inProcess',
  plugins: ['./tests/mutation/runner.mjs', './tests/mutation/asFound.mjs'],
  mutate: process.env.MUTATE.split(';'),
  coverageAnalysis: 'perTest',
  concurrency: Number(process.env.HANDS),
  // A file that does not exist: the compiler in use is not a library that it could be read with.
  tsconfigFile: 'none.json',
  ignorePatterns: ['dist', 'tests/output', 'assets/*.png', 'tests/golden'],
  tempDirName: '.mutation',
  // Words are for readers: changed texts are looked at by the tests of words, not here.
  mutator: { excludedMutations: ['StringLiteral'] },
  timeoutMS: 20000,
  dryRunTimeoutMinutes: 60,
  reporters: ['json', 'progress-append-only', 'asFound'],
  jsonReporter: { fileName: process.env.REPORT },
  // A change of the code is tried again when the code, or a test file that reaches it, is another than last time.
  incremental: true,
  incrementalFile: process.env.KEPT,
  force: process.env.ANEW === 'true',
  clearTextReporter: { allowColor: false },
  checkers: [],
  allowEmpty: false,
};
