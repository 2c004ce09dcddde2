/** The build of a lesson with one dimension changed; null where the rules refuse it. */
import type { BuildDocument } from '../../build/document.ts';
import { readContent } from '../../build/text.ts';
import { movesTheTop, withDeckClearanceHeld, withLiteral } from '../edit.ts';
import type { DimPath } from '../state.ts';

/** With `held`, compression height follows where the dimension moves the top of the piston, so that deck clearance stays. */
export function changedBuild(doc: BuildDocument, path: DimPath, literal: string, held: boolean): BuildDocument | null {
  const next = withLiteral(doc, path, literal);
  const read = readContent(held && movesTheTop(path) ? withDeckClearanceHeld(doc, next, path) : next);
  return read.ok ? read.doc : null;
}
