/** The build of a lesson: a demo build or a whole file, with the dimensions that the lesson sets. */
import type { Assembly, BuildDocument } from '../../build/document.ts';
import type { Lesson } from '../../build/lesson/index.ts';
import type { Problem } from '../../build/problem.ts';
import { type ParsedBuild, parseBuild, readContent } from '../../build/text.ts';
import { withLiteral } from '../edit.ts';
import type { DimPath } from '../state.ts';

/** Texts of the demo builds by key. */
export type Bases = ReadonlyMap<string, string>;

/** "crank.counterweight.radius" and "core.throws[0].rodJournal" as keys. */
export function keysOf(place: string): (string | number)[] {
  return [...place.matchAll(/([A-Za-z]+)|\[(\d+)\]/g)].map(([, key, index]) => key ?? Number(index));
}

/** Where a place of a lesson, such as "rod.length", stands in the document for the assembly with this index. */
export function pathOf(place: string, assembly: number): DimPath {
  const keys = keysOf(place);
  return keys[0] === 'block' ? keys : ['assemblies', assembly, ...keys];
}

/** The document, checked by the rules of build files; its first assembly is on show, its last one the ghost. */
export function setUp(lesson: Lesson, bases: Bases): ParsedBuild {
  const base = baseOf(lesson, bases);
  if (!base.ok) return base;
  const { block = {}, assemblies } = lesson.build;
  const problems: Problem[] = [];
  const made = assemblies.map((wanted, k): Assembly => {
    const { name, from = base.doc.assemblies[0]!.name } = wanted;
    const source = base.doc.assemblies.find((a) => a.name === from);
    if (source === undefined)
      problems.push({
        place: `build.assemblies[${k}].from`,
        value: from,
        rule: 'assembly of the base',
        allowed: `Allowed: ${base.doc.assemblies.map((a) => a.name).join(', ')}.`,
      });
    return { ...(source ?? base.doc.assemblies[0]!), name };
  });
  if (problems.length > 0) return { ok: false, problems };
  const { mockUp: _, note: __, $schema: ___, ...rest } = base.doc;
  let doc: BuildDocument = {
    ...rest,
    name: lesson.title,
    shownUnits: lesson.units,
    proposed: made[0]!.name,
    replaced: made.at(-1)!.name,
    assemblies: made,
  };
  for (const [place, text] of Object.entries(block)) doc = withLiteral(doc, ['block', ...keysOf(place)], text);
  assemblies.forEach(({ set = {} }, k) => {
    for (const [place, text] of Object.entries(set)) doc = withLiteral(doc, pathOf(place, k), text);
  });
  const read = readContent(doc);
  return read.ok ? read : { ok: false, problems: within('build', read.problems) };
}

function baseOf({ build }: Lesson, bases: Bases): ParsedBuild {
  if (build.file !== undefined) {
    const read = readContent(build.file);
    return read.ok ? read : { ok: false, problems: within('build.file', read.problems) };
  }
  const text = bases.get(build.base ?? '');
  if (text !== undefined) return parseBuild(text);
  const allowed = `Allowed: ${[...bases.keys()].join(', ')}.`;
  return { ok: false, problems: [{ place: 'build.base', value: build.base ?? '', rule: 'base build', allowed }] };
}

function within(place: string, problems: readonly Problem[]): Problem[] {
  return problems.map((p) => ({ ...p, place: p.place === '' ? place : `${place}.${p.place}` }));
}
