/**
 * A new job from a build that comes with the program: as it is, or as a template, with nothing measured. A build can't be laid out
 * without figures, so a template has those it was made with, every one marked as assumed; a gap that rests on them can't read `clears`
 * before the builder has put measured or stated figures in their place. What was measured on that engine, weighed or tried is left out.
 */
import type { BuildDocument } from '../../build/document.ts';
import { withoutTolerance } from '../../build/literalWrite.ts';
import { type ParsedBuild, readContent } from '../../build/text.ts';

/** What a template keeps of its build; everything else speaks of one engine alone. */
const KEPT_OF_BUILD = ['format', 'version', 'replaced', 'proposed', 'shownUnits', 'speed', 'block', 'assemblies'];
const KEPT_OF_ASSEMBLY = ['name', 'route', 'crank', 'rod', 'piston', 'camshaft', 'valvetrain'];
const LEFT_OF_BLOCK = ['head', 'lineBored', 'fixed'];

export function asTemplate(doc: BuildDocument, name: string): ParsedBuild {
  const pickFrom = (value: object, names: readonly string[]): Record<string, unknown> =>
    Object.fromEntries(Object.entries(value).filter(([key]) => names.includes(key)));
  const block = Object.fromEntries(Object.entries(doc.block).filter(([key]) => !LEFT_OF_BLOCK.includes(key)));
  return readContent(
    assumed({
      ...pickFrom(doc, KEPT_OF_BUILD),
      name,
      block,
      assemblies: doc.assemblies.map((assembly) => ({
        ...pickFrom(assembly, KEPT_OF_ASSEMBLY),
        route: 'To be entered. The figures are those of a template.',
      })),
    }),
  );
}

export function asDemonstration(doc: BuildDocument, name: string): ParsedBuild {
  return readContent({ ...doc, name });
}

/** A copy with every dimension marked as assumed; tolerances, which nobody has stated, go. */
function assumed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(assumed);
  if (typeof value !== 'object' || value === null) return value;
  if ('from' in value && 'value' in value && typeof value.value === 'string') {
    return { ...value, from: 'assumed', value: withoutTolerance(value.value) };
  }
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, assumed(item)]));
}
