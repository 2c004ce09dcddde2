// Runs the tests of an area in this process, the quickest first, and stops at the first that fails. The runner of vitest starts anew
// for every change of the code, which takes ten times as long as the tests; here each test file is made into one script once, with
// the code it tests, and only that is evaluated anew, so that nothing the code keeps goes over from one change to the next.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, resolve } from 'node:path';
import vm from 'node:vm';
import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import {
  DryRunStatus,
  determineHitLimitReached,
  TestStatus,
  toMutantRunResult,
} from '@stryker-mutator/api/test-runner';
import { build } from 'vite';
import { expect } from 'vitest';
import { AREAS } from './areas.mjs';

const SHIM = '\0tests';

/** Test files import these in the place of vitest's own; they are put there while a file is evaluated. */
const shim = {
  name: 'tests',
  enforce: 'pre',
  resolveId: (id) => (id === 'vitest' ? SHIM : null),
  load: (id) => (id === SHIM ? 'export const { describe, it, test, expect } = globalThis.onTrial;' : null),
};

async function scriptOf(file) {
  const { output } = await build({
    configFile: false,
    logLevel: 'silent',
    plugins: [shim],
    build: {
      ssr: true,
      write: false,
      minify: false,
      rollupOptions: { input: file, output: { format: 'cjs', codeSplitting: false } },
    },
  });
  const wrapped = `(function (exports, require, module, __filename, __dirname) {${output[0].code}\n})`;
  return new vm.Script(wrapped, { filename: `${file}.cjs` });
}

/**
 * The tests of a file, by name with a number where a name comes again. `entered` is told which part of the file is being evaluated
 * beside its tests: the whole, or a group; a test belongs to some of them.
 */
function testsOf(file, script, entered = () => {}) {
  const found = new Map();
  const groups = [];
  const parts = () => [...groups.keys(), groups.length].map((n) => ['part of', file, ...groups.slice(0, n)].join(' '));
  const test = (name, body) => {
    const whole = [...groups, name].join(' ');
    let id = `${file} ${whole}`;
    for (let again = 2; found.has(id); again++) id = `${file} ${whole} (${again})`;
    found.set(id, { id, name: whole, body, parts: parts() });
  };
  const describe = (name, body) => {
    groups.push(name);
    entered(parts().at(-1));
    body();
    groups.pop();
    entered(parts().at(-1));
  };
  const each = (into) => (cases) => (name, body) => {
    cases.forEach((one, i) => {
      into(`${name} #${i}`, () => body(...(Array.isArray(one) ? one : [one])));
    });
  };
  describe.each = each(describe);
  test.each = each(test);
  globalThis.onTrial = { describe, it: test, test, expect };
  const module = { exports: {} };
  entered(parts().at(-1));
  script.runInThisContext()(module.exports, createRequire(file), module, file, resolve(file, '..'));
  entered(undefined);
  return found;
}

class InProcess {
  #scripts = new Map();
  #tookMs = new Map();
  #ns = shared();

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    process.env.ON_TRIAL = 'yes';
    const { tests, except } = AREAS[process.env.AREA];
    const files = tests
      .flatMap((pattern) => filesOf(pattern))
      .filter((file) => !except?.some((end) => file.endsWith(end)));
    files.sort();
    for (const file of files) this.#scripts.set(file, await scriptOf(file));
  }

  async dryRun() {
    const tests = [];
    for (const [file, script] of this.#scripts) {
      const found = testsOf(file, script, (part) => {
        this.#ns.currentTestId = part;
      });
      for (const { id, name, body } of found.values()) {
        this.#ns.currentTestId = id;
        const result = await run(body);
        this.#ns.currentTestId = undefined;
        this.#tookMs.set(id, result.timeSpentMs);
        tests.push({ id, name, fileName: file, ...result });
      }
      this.#shareOut(found);
    }
    return { status: DryRunStatus.Complete, tests, mutantCoverage: this.#ns.mutantCoverage };
  }

  /** What was reached while a part of a file was evaluated counts as reached by every test in it. */
  #shareOut(found) {
    const { perTest } = this.#ns.mutantCoverage;
    const all = new Set();
    for (const { id, parts } of found.values()) {
      for (const part of parts) {
        all.add(part);
        for (const [mutant, times] of Object.entries(perTest[part] ?? {})) {
          perTest[id] ??= {};
          perTest[id][mutant] = (perTest[id][mutant] ?? 0) + times;
        }
      }
    }
    for (const part of all) delete perTest[part];
  }

  async mutantRun({ activeMutant, testFilter, hitLimit }) {
    if (!isDrawn(activeMutant)) return { status: MutantRunStatus.Error, errorMessage: 'not drawn' };
    const wanted = new Set(testFilter);
    const files = [...this.#scripts.keys()].filter((file) => [...wanted].some((id) => id.startsWith(`${file} `)));
    const off = { activeMutant: undefined, hitCount: undefined, hitLimit: undefined };
    Object.assign(this.#ns, {
      activeMutant: activeMutant.id,
      hitCount: hitLimit === undefined ? undefined : 0,
      hitLimit,
    });
    const results = [];
    try {
      const tests = files.flatMap((file) => [...testsOf(file, this.#scripts.get(file)).values()]);
      const drawn = tests.filter(({ id }) => wanted.has(id));
      drawn.sort((a, b) => (this.#tookMs.get(a.id) ?? 0) - (this.#tookMs.get(b.id) ?? 0));
      for (const { id, name, body } of drawn) {
        const result = await run(body);
        this.#tookMs.set(id, result.timeSpentMs);
        results.push({ id, name, ...result });
        if (result.status === TestStatus.Failed) break;
      }
    } catch (error) {
      // A file that can't even be evaluated: all of its tests fail.
      const [id] = wanted;
      results.push({ id, name: id, timeSpentMs: 0, status: TestStatus.Failed, failureMessage: String(error) });
    }
    const { hitCount } = this.#ns;
    Object.assign(this.#ns, off);
    return toMutantRunResult(
      determineHitLimitReached(hitCount, hitLimit) ?? { status: DryRunStatus.Complete, tests: results },
    );
  }
}

/** Of all changes the part SHARE is tried, DRAW being another choice of the same size: by a hash of place and change. */
function isDrawn({ fileName, location: { start, end }, replacement }) {
  const share = Number(process.env.SHARE ?? 1);
  if (share >= 1) return true;
  const place = `${process.env.DRAW} ${basename(fileName)} ${start.line}:${start.column} ${end.line}:${end.column} ${replacement}`;
  const hash = createHash('sha256').update(place).digest().readUInt32BE();
  return hash < share * 2 ** 32;
}

/** What the changed code and the package have in common: which change is on, what was reached. */
function shared() {
  globalThis[INSTRUMENTER_CONSTANTS.NAMESPACE] ??= {};
  return globalThis[INSTRUMENTER_CONSTANTS.NAMESPACE];
}

async function run(body) {
  const start = performance.now();
  const took = () => performance.now() - start;
  try {
    await body();
    return { status: TestStatus.Success, timeSpentMs: took() };
  } catch (error) {
    return {
      status: TestStatus.Failed,
      timeSpentMs: took(),
      failureMessage: String(error?.message ?? error) || 'failed',
    };
  }
}

/** Test files below the folder of a pattern, or the one file that it names. */
function filesOf(pattern) {
  const [folder, rest] = pattern.split('/**/');
  if (rest === undefined) return existsSync(pattern) ? [resolve(pattern)] : [];
  return readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => resolve(folder, name));
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, 'inProcess', InProcess)];
