/** A job in one line, for its row in the list: how its engine is laid out, bore, and the strokes replaced and proposed, as they were entered. */
import type { BuildDocument, LayoutName } from '../../build/document.ts';
import { kindOf } from '../../build/literal.ts';
import { withoutTolerance } from '../../build/literalWrite.ts';
import { at } from '../edit.ts';

const LAYOUTS: Readonly<Record<LayoutName, string>> = {
  single: 'single',
  'inline-3': 'inline three',
  'inline-4': 'inline four',
  'inline-5': 'inline five',
  'inline-6': 'inline six',
  'v6-90-shared-pins': 'V6, 90°, shared pins',
  'v6-90-split-pins': 'V6, 90°, split pins',
  'v6-60-split-pins': 'V6, 60°, split pins',
  'v8-cross-plane': 'V8, cross-plane',
  'v8-cross-plane-1-left': 'V8, cross-plane',
  'v8-flat-plane': 'V8, flat-plane',
  'flat-4': 'flat four',
  free: 'layout of its own',
};

/** The document may be one that is refused: what is not there, or is no text, is left out. */
export function factsOf(doc: BuildDocument): string {
  const assemblies = at(doc, ['assemblies']);
  const stroke = (which: 'replaced' | 'proposed'): string | undefined => {
    const name = at(doc, [which]);
    const k = Array.isArray(assemblies) ? assemblies.findIndex((a) => a?.name === name) : -1;
    return literal(at(doc, ['assemblies', k, 'crank', 'stroke', 'value']));
  };
  const layout = at(doc, ['block', 'layout']);
  const bore = literal(at(doc, ['block', 'bore', 'value']));
  const [before, after] = [stroke('replaced'), stroke('proposed')];
  return [
    ...(typeof layout === 'string' ? [LAYOUTS[layout as LayoutName] ?? layout] : []),
    ...(bore === undefined ? [] : [`bore ${bore}`]),
    ...(after === undefined
      ? []
      : [before === after || before === undefined ? `stroke ${after}` : `stroke ${before} → ${after}`]),
  ].join(' · ');
}

export function nameOf(doc: BuildDocument): string {
  const name = at(doc, ['name']);
  return typeof name === 'string' ? name : '';
}

/** Without its tolerance, and kept on one line; what is no literal as it stands. */
function literal(text: unknown): string | undefined {
  if (typeof text !== 'string') return undefined;
  const shown = kindOf(text) === null ? text : withoutTolerance(text);
  return shown.replaceAll(' ', '\u00a0');
}
