/** What the program makes of a spoilt file or literal, judged: nothing throws, every refusal has place, value and rule, what is taken gives numbers. */
import { layOut } from '../../src/assembly/index.ts';
import {
  convertLiteral,
  formatBuild,
  kindOf,
  type LengthUnit,
  type Problem,
  parseAngle,
  parseBuild,
  parseLength,
  parseSpeed,
  parseTyped,
  problemSentence,
  RULES,
  stepLiteral,
  withoutTolerance,
} from '../../src/build/index.ts';
import { certifiedGaps } from '../../src/model/certified.ts';
import { figuresOf } from '../../src/model/figures.ts';
import { scalarsOf } from '../../src/model/scalars.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { sumsOf, written } from '../../src/model/sums/index.ts';
import { gapSentence, verdictHeadline, verdictSentence } from '../../src/view/gapWords.ts';

const RULE_NAMES = new Set(RULES.map((r) => r.name));

/** Evaluations for the pairs of a taken file: enough to find a minimum, not to prove each to a micrometre. */
const BUDGET = 2000;

export interface Judged {
  readonly taken: boolean;
  /** The first rule that refused it. */
  readonly rule: string | null;
  /** Pairs swept. */
  readonly swept: number;
  readonly faults: readonly string[];
}

/** `text` of the file: words that it holds itself, as the name of an assembly, are no nonsense of the program's. */
export function faultsOf(problems: readonly Problem[], text = ''): string[] {
  if (problems.length === 0) return ['is refused without a problem'];
  return problems.flatMap((p) => {
    const sentence = problemSentence(p);
    const out: string[] = [];
    if (!RULE_NAMES.has(p.rule)) out.push(`names no rule: ${sentence}`);
    if (p.allowed.length < 8) out.push(`says nothing of what is allowed: ${sentence}`);
    if (p.place === '' && p.value === '' && p.rule !== 'readable file' && p.rule !== 'required') {
      out.push(`names neither place nor value: ${sentence}`);
    }
    // What the file itself says stands in `value`; the program's own words are place and what is allowed.
    const senseless = /\bundefined\b|\[object|\bNaN\b|\bInfinity\b/.exec(`${p.rule} ${p.allowed}`)?.[0];
    if (senseless !== undefined && !text.includes(senseless)) out.push(`says no sense: ${sentence}`);
    if (sentence.length > 3000) out.push(`runs on for ${sentence.length} characters: ${sentence.slice(0, 200)}`);
    return out;
  });
}

/** Everything that is not a number where numbers are. */
export function notNumbers(value: unknown, place = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${place} is ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => notNumbers(v, `${place}.${key}`));
}

const NONSENSE = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object/;

/** `which`, any whole number, chooses the pair that is swept and the sums that are done. */
export function judgeFile(text: string, which: number): Judged {
  const faults: string[] = [];
  const read = parseBuild(text);
  if (!read.ok)
    return { taken: false, rule: read.problems[0]?.rule ?? null, swept: 0, faults: faultsOf(read.problems, text) };
  const { doc } = read;
  const content: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
  // What was taken is what was given: nothing defaulted, nothing dropped.
  const again = parseBuild(formatBuild(doc));
  if (!again.ok) faults.push('can’t be read again');
  else if (JSON.stringify(sorted(again.doc)) !== JSON.stringify(sorted(content))) faults.push('came back another');
  let swept = 0;
  for (const a of doc.assemblies) {
    const engine = layOut(doc, a.name);
    for (const b of engine.bodies) {
      const outlines = [...b.layers.map((l) => l.outline), ...b.round.map((r) => r.slice(r.z0Mm, r.z1Mm))];
      faults.push(...notNumbers(outlines).map((f) => `${b.name}${f}`));
    }
    faults.push(...notNumbers(engine.cylinders).map((f) => `cylinders${f}`));
    const names = engine.bodies.map((b) => b.name);
    const own = names.filter((name) => NONSENSE.test(name) && !text.includes(name));
    faults.push(...own.map((name) => `a body is called ${name}`));
    const one = engine.pairs[which % Math.max(1, engine.pairs.length)];
    const allowance = { assumedAllowanceMm: null, budget: BUDGET };
    const gaps = solveGaps(engine, { ...allowance, wanted: (p) => p === one });
    swept += gaps.length;
    for (const { lowerBoundMm: _, ...g } of gaps) faults.push(...notNumbers(g).map((f) => `${g.id}${f}`));
    faults.push(...notNumbers(figuresOf(doc, engine, 1)).map((f) => `figures${f}`));
    faults.push(...notNumbers(scalarsOf(doc, engine)).map((f) => `scalars${f}`));
    const said = [
      ...gaps.map((g) => gapSentence(g, engine, doc.shownUnits)),
      verdictHeadline(gaps),
      verdictSentence(gaps, engine, doc.shownUnits),
    ];
    const names0 = JSON.stringify(doc);
    faults.push(
      ...said.filter((words) => NONSENSE.test(words) && !NONSENSE.test(names0)).map((words) => `says ${words}`),
    );
    if (which % 5 !== 0) continue;
    for (const group of sumsOf(doc, a.name)) {
      for (const sum of group.sums) {
        const words = sum.amount === null ? '' : written(sum.amount, doc.shownUnits);
        if (NONSENSE.test(words)) faults.push(`the sum ${sum.name} says ${words}`);
      }
    }
  }
  return { taken: true, rule: null, swept, faults };
}

/** Every gap of a file that was taken, certified as on the page: for the few that are looked at in full. */
export function judgeWhole(text: string): readonly string[] {
  const read = parseBuild(text);
  if (!read.ok) return [];
  const engine = layOut(read.doc, read.doc.proposed);
  return certifiedGaps(read.doc, engine, new Map()).flatMap(({ lowerBoundMm: _, ...g }) =>
    notNumbers(g).map((f) => `${g.id}${f}`),
  );
}

/** A literal read every way there is. */
export function judgeLiteral(text: string, former = '3.750 in'): readonly string[] {
  const faults: string[] = [];
  const kind = kindOf(text);
  for (const read of [parseLength(text), parseAngle(text), parseSpeed(text), parseTyped(text, former)]) {
    if (read.ok) continue;
    if (read.allowed.length < 8) faults.push(`says nothing of what is allowed: ${read.allowed}`);
    if (read.offending === '') faults.push('names nothing that offends');
    if (read.offending.length > 200) faults.push(`names ${read.offending.length} characters`);
  }
  if (kind === null) return faults;
  const read = kind === 'length' ? parseLength(text) : null;
  if (read !== null && (!read.ok || !read.mm.isFinite() || !Number.isFinite(read.mm.toNumber())))
    faults.push('is no number');
  if (kindOf(withoutTolerance(text)) !== kind) faults.push(`without its tolerance is ${withoutTolerance(text)}`);
  if (kind !== 'length' || read === null || !read.ok) return faults;
  const step = stepLiteral(text, 1, '0.001 in');
  const stepped = parseLength(step);
  // A thousandth more, to what the unit's working decimals hold; at the greatest length of all there is no more.
  if (stepped.ok && stepped.mm.minus(read.mm).minus('0.0254').abs().gt('0.0013'))
    faults.push(`a thousandth more is ${step}`);
  for (const unit of ['in', 'mm', 'thou'] as const satisfies readonly LengthUnit[]) {
    const other = convertLiteral(text, unit);
    const back = parseLength(other.text);
    if (!back.ok) faults.push(`in ${unit} is ${other.text}, which can’t be read`);
    else if (back.mm.minus(read.mm).abs().gt('0.0000256')) faults.push(`in ${unit} is ${other.text}`);
  }
  return faults;
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, v]) => [key, sorted(v)]),
  );
}
