/**
 * How many cases of a random or dense test are run: as many as usual, or fewer while the tests themselves are tried
 * (`npm run mutate`), where each change of the code costs a whole run.
 */
export function fewer(usual: number, onTrial: number): number {
  return process.env['ON_TRIAL'] === undefined ? usual : onTrial;
}
