/**
 * `npm run bench`: what the numeric work costs on this machine, one line a figure, `name: value unit`. Least of several
 * runs, the builds fixed. Milliseconds live here and nowhere in the tests, which assert counts.
 */
import { benchOneGap } from './gapBench.ts';
import { benchV8 } from './v8Bench.ts';

benchOneGap();
benchV8();
