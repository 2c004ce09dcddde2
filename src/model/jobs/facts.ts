/** A job in one line, for its row in the list: how its engine is laid out, bore, and the strokes replaced and proposed, as they were entered. */
import type { BuildDocument, LayoutName } from '../../build/document.ts';

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

export function factsOf(doc: BuildDocument): string {
  const stroke = (name: string): string | undefined => doc.assemblies.find((a) => a.name === name)?.crank.stroke.value;
  const [before, after] = [stroke(doc.replaced), stroke(doc.proposed)];
  const strokes = before === after || before === undefined ? `stroke ${after}` : `stroke ${before} → ${after}`;
  return [LAYOUTS[doc.block.layout] ?? doc.block.layout, `bore ${doc.block.bore.value}`, strokes].join(' · ');
}
