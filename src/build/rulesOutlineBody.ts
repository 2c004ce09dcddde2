/**
 * Rules about measured outlines and the body they stand for: what turns in the body lies within the outline. A drawing in the wrong unit,
 * upside down or about another origin breaks them.
 */
import { clipLevel } from '../core/outline/clip.ts';
import { type Extent, extentOf } from '../core/outline/extent.ts';
import { flatten } from '../core/outline/flat.ts';
import type { Outline } from '../core/outline/outline.ts';
import { nearestPlace, signedDistance } from '../core/outline/signedDistance.ts';
import { counterweightOf, type MeasuredOutline, measuredOf, pistonOf, rodOf, weightedCheeks } from './bodyOf.ts';
import type { Assembly, Dim, Piston, Rod } from './document.ts';
import { layoutOfBlock } from './layouts.ts';
import { Exact } from './literal.ts';
import { outlinePieces } from './outlinePieces.ts';
import { rodCutsMm } from './rodCuts.ts';
import { faultOf } from './rulesOutline.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

export const outlineBodyGroup: RuleGroup = {
  rules: [
    {
      name: 'outline around its shafts',
      what: 'The outline of a counterweight lies around main journal and crankpin, that of a rod around crankpin and piston pin, that of a pin boss around the pin.',
      why: 'The whole of the part is traced about its own origin, the right way up; else metal would be missing from it.',
    },
    {
      name: 'outline within the engine',
      what: 'The outline of a counterweight or rod reaches no farther from its origin than the deck height; that of a fixed part comes as near to the crank axis.',
      why: 'No such part is larger, and one farther away would meet nothing: millimetres were taken for inches.',
    },
    {
      name: 'ends of a traced rod',
      what: 'The outline crosses the height at which the big end stops, and that at which the small end begins, twice each.',
      why: 'Big end, beam and small end differ in width along the shaft; it must be plain which is which.',
    },
    {
      name: 'boss within its piston',
      what: 'The outline of a pin boss lies within the skirt’s diameter and below the crown.',
      why: 'Only the boss is traced; skirt and crown come from their dimensions.',
    },
  ],
  check(doc, report) {
    const layout = layoutOfBlock(doc.block);
    const deck = doc.block.deckHeight;
    doc.block.fixed?.forEach((part, k) => {
      const sound = soundOutline({ points: part.outline, from: part.from, deviation: undefined, own: true });
      if (sound === null || distanceMm(sound.outline, 0, 0) <= mm(deck)) return;
      const allowed = `Allowed: some of it within the deck height, ${sayMm(exact(deck))}, of the crank axis.`;
      report('outline within the engine', `block.fixed[${k}].outline`, sound.count, allowed);
    });
    doc.assemblies.forEach((assembly, a) => {
      const place = `assemblies[${a}]`;
      const seen = new Set<string>();
      // What many bodies share is reported once.
      const once: Report = (rule, at, value, allowed) => {
        if (!seen.has(`${rule} ${at} ${allowed}`)) report(rule, at, value, allowed);
        seen.add(`${rule} ${at} ${allowed}`);
      };
      for (const { throw: number, side } of weightedCheeks(assembly, layout)) {
        const body = counterweightOf(assembly, number, side);
        const outline = soundOutline(measuredOf(body));
        if (outline === null) continue;
        checkReach(outline, deck, `${place}.${body.ownPlace}.outline`, once);
        checkCheek(assembly, outline, `${place}.${body.ownPlace}.outline`, once);
      }
      for (const { number } of layout.cylinders) {
        const rod = rodOf(assembly, number);
        const piston = pistonOf(assembly, number);
        const at = (part: 'rod' | 'piston', body: { ownPlace?: string }, measured: MeasuredOutline | undefined) =>
          `${place}.${measured?.own ? body.ownPlace : part}.outline`;
        const ofRod = measuredOf(rod);
        const rodOutline = soundOutline(ofRod);
        if (rodOutline !== null) {
          checkReach(rodOutline, deck, at('rod', rod, ofRod), once);
          checkRod(assembly, rod.dims, piston.dims, rodOutline, at('rod', rod, ofRod), once);
        }
        const ofPiston = measuredOf(piston);
        const boss = soundOutline(ofPiston);
        if (boss !== null) checkBoss(piston.dims, boss, at('piston', piston, ofPiston), once);
      }
    });
  },
};

interface Sound {
  readonly outline: Outline;
  readonly count: string;
}

/** Null where there is none, or where it is refused by itself. */
function soundOutline(measured: MeasuredOutline | undefined): Sound | null {
  if (measured === undefined || faultOf(measured.points) !== 'sound') return null;
  return { outline: outlinePieces(measured.points), count: `${measured.points.length} points` };
}

const mm = (dim: Dim): number => exact(dim).toNumber();

/** What was found of an outline before: bodies of a set share it, and while a dimension is dragged most of it holds. */
const facts = new WeakMap<Outline, Map<string, unknown>>();
/** Facts kept for one outline: a gesture passes through some hundred. */
const MOST_FACTS = 400;

function fact<T>(outline: Outline, what: string, find: () => T): T {
  const known = facts.get(outline) ?? new Map<string, unknown>();
  facts.set(outline, known);
  const before = known.get(what) as T | undefined;
  if (before !== undefined) return before;
  if (known.size >= MOST_FACTS) known.clear();
  const found = find();
  known.set(what, found);
  return found;
}

/** Of a point, mm, negative inside. */
function distanceMm(outline: Outline, x: number, y: number): number {
  return fact(outline, `at ${x} ${y}`, () => {
    const flat = fact(outline, 'flat', () => flatten(outline));
    return signedDistance(flat, x, y, nearestPlace);
  });
}

function boxOf(outline: Outline): Extent {
  return fact(outline, 'box', () => extentOf(outline));
}

/** Reports unless a round part about (x, y), given by its diameter, lies within the outline. */
function around(sound: Sound, x: number, y: number, diameter: Dim, what: string, place: string, report: Report): void {
  const within = -distanceMm(sound.outline, x, y);
  if (within > mm(diameter) / 2) return;
  const allowed = `Allowed: around ${what}, ${sayMm(exact(diameter))} across, with its centre at x ${say(x)}, y ${say(y)}.`;
  report('outline around its shafts', place, sound.count, allowed);
}

function say(value: number): string {
  return sayMm(new Exact(value));
}

function checkReach({ outline, count }: Sound, deck: Dim, place: string, report: Report): void {
  const { x0, y0, x1, y1 } = boxOf(outline);
  if (Math.max(-x0, -y0, x1, y1) <= mm(deck)) return;
  const allowed = `Allowed: at most the deck height, ${sayMm(exact(deck))}, from its origin.`;
  report('outline within the engine', place, count, allowed);
}

function checkCheek({ crank }: Assembly, sound: Sound, place: string, report: Report): void {
  around(sound, 0, 0, crank.mainJournal, 'the main journal', place, report);
  around(sound, 0, mm(crank.stroke) / 2, crank.rodJournal, 'the rod journal', place, report);
}

function checkRod({ crank }: Assembly, rod: Rod, piston: Piston, sound: Sound, place: string, report: Report): void {
  around(sound, 0, 0, crank.rodJournal, 'the rod journal', place, report);
  around(sound, 0, mm(rod.length), piston.pinDiameter, 'the piston pin', place, report);
  const heights = rodCutsMm({
    lengthMm: mm(rod.length),
    bigEndRadiusMm: mm(rod.bigEndRadius),
    shoulderHeightMm: mm(rod.shoulderHeight),
    smallEndRadiusMm: mm(rod.smallEndRadius),
  });
  const { outline } = sound;
  for (const [height, keep, what] of [
    [heights.bigEnd, 'below', 'the big end stops (rod.bigEndRadius, rod.shoulderHeight)'],
    [heights.smallEnd, 'above', 'the small end begins (rod.length less rod.smallEndRadius)'],
  ] as const) {
    const isParted = fact(outline, `${keep} ${height}`, () => {
      const part = clipLevel(outline, height, keep);
      return part !== null && part !== outline;
    });
    if (isParted) continue;
    const allowed = `Allowed: crossing the height ${say(height)}, where ${what}, twice.`;
    report('ends of a traced rod', place, sound.count, allowed);
  }
}

function checkBoss(piston: Piston, sound: Sound, place: string, report: Report): void {
  around(sound, mm(piston.pinOffset), 0, piston.pinDiameter, 'the piston pin', place, report);
  const box = boxOf(sound.outline);
  const half = mm(piston.skirtDiameter) / 2;
  const top = mm(piston.compressionHeight);
  if (box.x0 >= -half && box.x1 <= half && box.y1 <= top) return;
  const allowed = `Allowed: at most ${say(half)} to either side of the bore axis and ${say(top)} above the pin.`;
  report('boss within its piston', place, sound.count, allowed);
}
