/** Where cylinders and throws stand in each layout, as they are drawn on a crank: for checks, imports nothing of the program. */
import type { BuildFile } from './buildFile.ts';
import { mm } from './buildFile.ts';

export interface CylinderPlace {
  readonly number: number;
  readonly bank: number;
  readonly throw: number;
  /** Degrees from up, in the direction of rotation, with the pin of cylinder 1 along its bore. */
  readonly bankDeg: number;
  readonly pinDeg: number;
  readonly boreZ: number;
  /** Crank degrees after the firing of cylinder 1 at which its pin is at the top and it fires. */
  readonly firesDeg: number;
}

export interface ThrowPlace {
  readonly number: number;
  /** Direction of the throw: opposite to its counterweights. */
  readonly deg: number;
  readonly z: number;
  /** Cylinders it serves, front to rear. */
  readonly serves: readonly CylinderPlace[];
}

interface Drawn {
  readonly banks: readonly number[];
  readonly pins: readonly number[];
  readonly throwOf: (cylinder: number) => number;
}

const alone = (cylinder: number): number => cylinder;
const shared = (cylinder: number): number => Math.ceil(cylinder / 2);
const vee = (odd: number, pairs: number): number[] =>
  Array.from({ length: 2 * pairs }, (_, k) => (k % 2 === 0 ? odd : -odd));
const inline = (count: number): number[] => new Array(count).fill(0);

/** Bank and pin directions of cylinders 1, 2, … */
const DRAWN: Readonly<Record<string, Drawn>> = {
  single: { banks: [0], pins: [0], throwOf: alone },
  'inline-3': { banks: inline(3), pins: [0, 240, 120], throwOf: alone },
  'inline-4': { banks: inline(4), pins: [0, 180, 180, 0], throwOf: alone },
  'inline-5': { banks: inline(5), pins: [0, 216, 144, 72, 288], throwOf: alone },
  'inline-6': { banks: inline(6), pins: [0, 240, 120, 120, 240, 0], throwOf: alone },
  'v6-90-shared-pins': { banks: vee(45, 3), pins: [45, 45, 285, 285, 165, 165], throwOf: shared },
  'v6-90-split-pins': { banks: vee(45, 3), pins: [45, 75, 285, 315, 165, 195], throwOf: shared },
  'v6-60-split-pins': { banks: vee(-30, 3), pins: [330, 270, 90, 30, 210, 150], throwOf: shared },
  'v8-cross-plane': { banks: vee(-45, 4), pins: [315, 315, 45, 45, 225, 225, 135, 135], throwOf: shared },
  'v8-cross-plane-1-left': { banks: vee(45, 4), pins: [45, 45, 135, 135, 315, 315, 225, 225], throwOf: shared },
  'v8-flat-plane': { banks: vee(-45, 4), pins: [315, 315, 135, 135, 135, 135, 315, 315], throwOf: shared },
  'flat-4': { banks: vee(-90, 2), pins: [270, 90, 90, 270], throwOf: alone },
};

/** Banks of a named layout as they are drawn, or undefined for another name. */
export function banksOf(layout: string): readonly number[] | undefined {
  return DRAWN[layout]?.banks;
}

const wrapDeg = (a: number): number => ((a % 360) + 360) % 360;

/** The angle halfway from one direction to another, the short way. */
const halfway = (a: number, b: number): number => a + (wrapDeg(b - a + 180) - 180) / 2;

interface Stand {
  readonly bank: number;
  readonly throw: number;
  readonly bankDeg: number;
  readonly pinDeg: number;
}

function stands(file: BuildFile): { cylinders: Stand[]; throwsDeg: number[] } {
  const free = file.block.freeLayout;
  if (free !== undefined) {
    const byNumber = [...free.cylinders].sort((a, b) => a.cylinder - b.cylinder);
    const first = byNumber[0]!;
    const splitOf = (c: (typeof byNumber)[number]): number => (c.pinSplit ? mm(c.pinSplit) : 0);
    const phase = (k: number): number => mm(free.throws[k - 1]!.phase);
    // The whole crank is turned so that the pin of cylinder 1 points along its bore.
    const turn = mm(free.banks[first.bank - 1]!.angle) - phase(first.throw) - splitOf(first);
    return {
      cylinders: byNumber.map((c) => ({
        bank: c.bank,
        throw: c.throw,
        bankDeg: mm(free.banks[c.bank - 1]!.angle),
        pinDeg: phase(c.throw) + splitOf(c) + turn,
      })),
      throwsDeg: free.throws.map((_, k) => phase(k + 1) + turn),
    };
  }
  const drawn = DRAWN[file.block.layout]!;
  const cylinders = drawn.banks.map(
    (bankDeg, k): Stand => ({
      bank: bankDeg === drawn.banks[0] ? 1 : 2,
      throw: drawn.throwOf(k + 1),
      bankDeg,
      pinDeg: drawn.pins[k]!,
    }),
  );
  const throws = Math.max(...cylinders.map((c) => c.throw));
  const throwsDeg = Array.from({ length: throws }, (_, k) => {
    const pins = cylinders.filter((c) => c.throw === k + 1).map((c) => c.pinDeg);
    return pins.length === 1 ? pins[0]! : halfway(pins[0]!, pins[1]!);
  });
  return { cylinders, throwsDeg };
}

export function placesOf(file: BuildFile): { cylinders: CylinderPlace[]; throws: ThrowPlace[] } {
  const { cylinders, throwsDeg } = stands(file);
  const [spacing, offset] = [mm(file.block.boreSpacing), mm(file.block.bankOffset)];
  const first = cylinders[0]!;
  const inBank = (c: Stand): number => cylinders.filter((o) => o.bank === c.bank && o.throw < c.throw).length;
  const fires = firing(cylinders, file.block.firingOrder);
  const placed = cylinders.map(
    (c, k): CylinderPlace => ({
      ...c,
      number: k + 1,
      boreZ: (inBank(c) - inBank(first)) * spacing + (c.bank - first.bank) * offset,
      firesDeg: fires[k]!,
    }),
  );
  const throws = throwsDeg.map((deg, k): ThrowPlace => {
    const serves = placed.filter((c) => c.throw === k + 1).sort((a, b) => a.boreZ - b.boreZ);
    return { number: k + 1, deg, z: serves.reduce((s, c) => s + c.boreZ, 0) / serves.length, serves };
  });
  return { cylinders: placed, throws };
}

/** Each fires at the first top of its stroke after the one before it. */
function firing(cylinders: readonly Stand[], order: readonly number[]): number[] {
  const times: number[] = new Array(cylinders.length).fill(0);
  let now = 0;
  for (const number of order.slice(1)) {
    const c = cylinders[number - 1]!;
    const wait = wrapDeg(c.bankDeg - c.pinDeg - now);
    now += wait < 1 ? wait + 360 : wait;
    times[number - 1] = now;
  }
  return times;
}
