/** Whether values at the ends of a map's sides are such that a field's own rule may refuse them: not above zero, beyond a range. */
import { readContent } from '../../build/text.ts';
import { withLiteral } from '../edit.ts';
import type { MapSpec } from './spec.ts';

export function refusedByFields({ doc, a, b }: Pick<MapSpec, 'doc' | 'a' | 'b'>): boolean {
  return [a, b].some(({ path, values }) =>
    [values[0]!, values.at(-1)!].some((text) => {
      const read = readContent(withLiteral(doc, path, text));
      return !read.ok && read.problems.some((problem) => FIELD_RULES.includes(problem.rule));
    }),
  );
}

const FIELD_RULES: readonly string[] = ['sign', 'range', 'dimension', 'literal'];
