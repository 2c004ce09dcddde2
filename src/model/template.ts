/** The outlines of a body as drawings for the shop: which outlines, what lies at their origin, and the sheet as DXF or SVG. */
import type { Engine } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/index.ts';
import {
  type FileUnit,
  type NamedOutline,
  type SeenFrom,
  writeOutlineDxf,
  writeOutlineSvg,
} from '../exchange/index.ts';
import { type OutlineTarget, outlineAt, targetName } from './outlineTarget.ts';

export interface Template {
  readonly name: string;
  /** In the body's own frame, mm. */
  readonly outlines: readonly NamedOutline[];
  readonly origin: string;
  /** What lies in the direction of +y, if it has a name. */
  readonly up?: string;
  readonly notes: readonly string[];
}

/** Of the engine as laid out; null where it has no such body. A set is drawn by its first. */
export function templateOf(doc: BuildDocument, engine: Engine, target: OutlineTarget): Template | null {
  const shown =
    target.body === 'rod' || target.body === 'piston' ? { ...target, cylinder: target.cylinder ?? 1 } : target;
  const name = targetName(shown);
  const body = engine.bodies.find((b) => b.name === name);
  if (body === undefined) return null;
  const layer = (part: string) => body.layers.find((l) => l.part === part)?.outline;
  const named = (what: string, outline: NamedOutline['outline'] | undefined): NamedOutline[] =>
    outline === undefined ? [] : [{ name: what, outline }];
  const measured = outlineAt(doc, engine.assembly, shown) ?? outlineAt(doc, engine.assembly, target);
  const deviation = measured?.outlineDeviation?.value;
  const notes =
    measured === undefined ? [] : [`From a measured outline${deviation ? `, deviation ${deviation}` : ''}.`];
  switch (target.body) {
    case 'counterweight':
      return { name, outlines: named(name, body.layers[0]?.outline), origin: 'crank centre', up: 'crankpin', notes };
    case 'rod':
      return { name, outlines: named(name, layer('beam')), origin: 'crankpin centre', up: 'small end', notes };
    case 'piston':
      return {
        name,
        outlines: [
          ...named(`${name} pin boss`, layer('pin boss')),
          ...named(`${name} section`, body.drawn[0]?.outline),
        ],
        origin: 'bore axis at the height of the pin',
        up: 'crown',
        notes,
      };
    case 'fixed':
      return { name, outlines: named(name, body.layers[0]?.outline), origin: 'crank centre', notes };
  }
}

export interface TemplateOptions {
  readonly unit: FileUnit;
  readonly seenFrom: SeenFrom;
  /** As it is to be printed. */
  readonly date: string;
}

export function templateDxf(doc: BuildDocument, template: Template, options: TemplateOptions): string {
  const { unit, seenFrom } = options;
  return writeOutlineDxf(template.outlines, {
    unit,
    seenFrom,
    rotation: doc.block.rotation,
    origin: template.origin,
  });
}

/** At full size: one unit of the drawing is a millimetre. */
export function templateSvg(doc: BuildDocument, template: Template, options: TemplateOptions): string {
  const { name, outlines, origin, up, notes } = template;
  return writeOutlineSvg(outlines, {
    title: `${doc.name}: ${name}`,
    date: options.date,
    rotation: doc.block.rotation,
    seenFrom: options.seenFrom,
    origin,
    notes,
    ...(up === undefined ? {} : { up }),
  });
}
