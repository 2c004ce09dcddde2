/**
 * What the section shows for the chosen cylinder: the bodies of its throw, and the pairs between them.
 *
 * The section is a stepped cut: it runs through the chosen rod, its piston and bore and the crankpin, and steps to the
 * counterweight that matters, that of the picked or worst pair, else the one nearest to the rod. The other cylinder
 * of the same throw stands behind it. Bodies of other throws are left out unless the picked pair needs them.
 */
import type { Body, Cylinder, DrawnShape, Engine } from '../assembly/engine.ts';
import type { Gap } from '../model/results.ts';
import type { State } from '../model/state.ts';

/** How a body is drawn: cut by the section, or seen behind it. */
export type Role = 'cut' | 'behind';

export interface Seen {
  readonly body: Body;
  readonly role: Role;
  /** Only the shapes that it takes, where a body lies partly before and partly behind another. */
  readonly part?: (shape: DrawnShape) => boolean;
}

const isCut = (shape: DrawnShape): boolean => shape.style === 'cut';
/** Of a piston, the pin: the round cut shape. It lies before the rod, whose eye it fills; the rest lies behind the rod. */
const isPin = (shape: DrawnShape): boolean => isCut(shape) && shape.outline.pieces.every((p) => p.kind === 'arc');

export function chosenCylinder(state: Pick<State, 'engine' | 'cylinder'>): Cylinder {
  const found = state.engine.cylinders.find((c) => c.number === state.cylinder);
  if (found === undefined) throw new RangeError(`This engine has no cylinder ${state.cylinder}`);
  return found;
}

/** Cylinders on the same throw as the chosen one, the chosen one first. */
export function cylindersOfThrow(engine: Engine, chosen: Cylinder): readonly Cylinder[] {
  return [chosen, ...engine.cylinders.filter((c) => c.throw === chosen.throw && c.number !== chosen.number)];
}

function steppedCounterweight(
  engine: Engine,
  chosen: Cylinder,
  gaps: readonly Gap[],
  picked: string | null,
): Body | null {
  const own = engine.bodies.filter((b) => b.kind === 'counterweight' && b.throw === chosen.throw);
  const weightOf = (gap: Gap) => own.find((b) => b.name === gap.between[0] || b.name === gap.between[1]);
  const pickedGap = gaps.find((g) => g.id === picked);
  const fromPicked = pickedGap === undefined ? undefined : weightOf(pickedGap);
  if (fromPicked !== undefined) return fromPicked;
  // The gaps come worst margin first: the first that names a counterweight of this throw and is not clear decides.
  const bad = gaps.find((g) => g.state !== 'clears' && g.cylinder === chosen.number && weightOf(g) !== undefined);
  const fromBad = bad === undefined ? undefined : weightOf(bad);
  if (fromBad !== undefined) return fromBad;
  const middle = (b: Body) => Math.abs((b.z0Mm + b.z1Mm) / 2 - chosen.boreCentreMm);
  let nearest: Body | null = null;
  for (const body of own) if (nearest === null || middle(body) < middle(nearest)) nearest = body;
  return nearest;
}

/** Bodies to draw, from the back to the front. */
export function bodiesInView(state: Pick<State, 'engine' | 'cylinder' | 'gaps' | 'picked'>): readonly Seen[] {
  const { engine, picked, gaps } = state;
  const chosen = chosenCylinder(state);
  const others = new Set(
    cylindersOfThrow(engine, chosen)
      .slice(1)
      .map((c) => c.number),
  );
  const weight = steppedCounterweight(engine, chosen, gaps, picked);
  const pickedGap = gaps.find((g) => g.id === picked);
  const wanted = new Set(pickedGap?.between ?? []);
  const seen: (Seen & { readonly depth: number })[] = [];
  for (const body of engine.bodies) {
    const own = body.cylinder === chosen.number;
    const beside = body.cylinder !== undefined && others.has(body.cylinder);
    const put = (role: Role, depth: number, part?: (shape: DrawnShape) => boolean) =>
      seen.push({ body, role, depth, ...(part === undefined ? {} : { part }) });
    switch (body.kind) {
      case 'block':
        if (body.cylinder === undefined || own || beside) put('cut', 0);
        else if (wanted.has(body.name)) put('behind', 0);
        break;
      case 'cam core':
        put('cut', 4);
        break;
      case 'lobe':
        if (own) put('cut', 5);
        else if (beside || wanted.has(body.name)) put('behind', 3);
        break;
      case 'valve':
        if (own) put('cut', 5.5);
        else if (wanted.has(body.name)) put('behind', 1);
        break;
      case 'counterweight':
        if (body === weight) put('cut', 6);
        else if (wanted.has(body.name)) put('behind', 3);
        break;
      case 'journal':
        if (body.throw !== undefined && body.throw !== chosen.throw) break;
        // Of a split throw only the pin that the chosen rod runs on.
        if (chosen.boreCentreMm < body.z0Mm || chosen.boreCentreMm > body.z1Mm) break;
        // The main journal lies behind the rod, the crankpin is cut inside the rod's big end.
        put('cut', 7, (shape) => !isCut(shape));
        put('cut', 8.5, isCut);
        break;
      case 'rod':
        if (own) put('cut', 8);
        else if (beside) put('behind', 2);
        else if (wanted.has(body.name)) put('behind', 1);
        break;
      case 'piston':
        if (own) {
          put('cut', 7.5, (shape) => !isPin(shape));
          put('cut', 9, isPin);
        } else if (beside) {
          put('behind', 1.5, (shape) => !isPin(shape));
          put('behind', 2.5, isPin);
        } else if (wanted.has(body.name)) put('behind', 1);
        break;
    }
  }
  return seen.sort((a, b) => a.depth - b.depth);
}

/** Ids of the pairs both of whose bodies are in view. */
export function pairsInView(engine: Engine, seen: readonly Seen[]): ReadonlySet<string> {
  const names = new Set(seen.map((s) => s.body.name));
  return new Set(engine.pairs.filter((p) => names.has(p.a.name) && names.has(p.b.name)).map((p) => p.id));
}

/** The gaps in view that come first: the picked one, then the others in the order of the state (worst margin first). */
export function leadingGaps(state: State, ids: ReadonlySet<string>, most: number): readonly Gap[] {
  const picked = state.gaps.filter((g) => g.id === state.picked);
  return [...picked, ...state.gaps.filter((g) => ids.has(g.id) && g.id !== state.picked)].slice(0, most);
}

/** Whether the gaps are those of a gesture under way or of one just ended: followed, their proof still to come. */
export function isMoving(state: Pick<State, 'gaps'>): boolean {
  return state.gaps.some((g) => !g.certified && !g.budgetSpent);
}
