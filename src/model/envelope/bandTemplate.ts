/** A swept band in the drawing for the shop: the partner's outlines with the band that it must keep clear of, or the band by itself. */
import type { Engine } from '../../assembly/engine.ts';
import type { BuildDocument } from '../../build/document.ts';
import type { Outline } from '../../core/outline/outline.ts';
import type { NamedOutline } from '../../exchange/index.ts';
import type { OutlineTarget } from '../outlineTarget.ts';
import { type Template, templateOf } from '../template.ts';
import { doubleArea, type Polygon } from './polygons.ts';
import type { Band } from './watcher.ts';

/** The template of a band. Seen from the block, or from a body of which no template is made, it holds the band alone. */
export function bandTemplate(doc: BuildDocument, engine: Engine, band: Band): Template {
  const target = band.from === null ? null : targetNamed(band.from);
  const own = target === null ? null : templateOf(doc, engine, target);
  const note = `Swept by ${band.name}: contains all that it ever covers, and at most 0.05 mm more.`;
  return {
    name: `${band.name} seen from ${band.from ?? 'the block'}`,
    outlines: [...(own?.outlines ?? []), ...bandOutlines(band)],
    origin: own?.origin ?? originOf(engine, band.from),
    ...(own?.up === undefined ? {} : { up: own.up }),
    notes: [...(own?.notes ?? []), note],
  };
}

/** The outlines of a band, each named: what is swept, and where it leaves room in its middle the edge of that room. */
export function bandOutlines({ name, polygons, limitMm }: Band): NamedOutline[] {
  const kept = limitMm > 0 ? 'keep out' : 'swept';
  return polygons.map((p, k) => {
    const inner = doubleArea(p) < 0;
    return {
      name: `${kept} ${name}${inner ? ' inner edge' : ''}${k < 2 ? '' : ` ${k + 1}`}`,
      outline: outlineOf(p, inner),
    };
  });
}

/** As straight edges, counterclockwise. */
function outlineOf(p: Polygon, turned: boolean): Outline {
  const n = p.length / 2;
  const corner = (k: number): readonly [number, number] => {
    const at = turned ? n - 1 - (k % n) : k % n;
    return [p[2 * at]!, p[2 * at + 1]!];
  };
  return {
    pieces: Array.from({ length: n }, (_, k) => {
      const [[x0, y0], [x1, y1]] = [corner(k), corner(k + 1)];
      return { kind: 'line', x0, y0, x1, y1 } as const;
    }),
  };
}

function targetNamed(name: string): OutlineTarget | null {
  const weight = /^counterweight (\d+) (front|rear)$/.exec(name);
  if (weight !== null) return { body: 'counterweight', throw: Number(weight[1]), side: weight[2] as 'front' | 'rear' };
  const numbered = /^(rod|piston) (\d+)$/.exec(name);
  return numbered === null ? null : { body: numbered[1] as 'rod' | 'piston', cylinder: Number(numbered[2]) };
}

/** What lies at the origin of a body's own frame. */
function originOf(engine: Engine, name: string | null): string {
  const kind = engine.bodies.find((b) => b.name === name)?.kind;
  return kind === 'lobe' || kind === 'cam core' ? 'camshaft axis' : 'crank centre';
}
