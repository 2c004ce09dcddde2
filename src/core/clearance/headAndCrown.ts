/**
 * The gap, in space, of a valve head and the crown of its piston with the valve's pocket in it, where the head stands somewhere.
 *
 * Frame: the piston's, x across, y outward along the bore, z along the shaft. The head is a disc of radius R and thickness m about the
 * stem's axis a = (sin lean, cos lean, 0); c is the middle of its face, from which it reaches up along a. The crown is all that lies below
 * its flat top, less the pocket: a round hole about an axis along a, with a floor square to it. It is taken as endless to the sides, which
 * the bore sees to.
 *
 * The crown is made of wedges, each the common part of one half-space n1.p <= b1 and of what lies below the top, u.p <= top:
 *
 *   the floor     n1 = a,     b1 = a.F, F the middle of the floor;
 *   the wall      n1 = -e_k,  b1 = -(e_k.F + r cos(pi / N)), with N directions e_k square to a all round.
 *
 * The outside of a circle is the union of the half-planes beyond its tangents; N of them, moved in so that they meet on the circle, make a
 * hole with N corners that lies within the round one: on the safe side, by no more than r (1 - cos(pi / N)).
 *
 * A head and a wedge are both convex. Their distance is the greatest s(n) over unit vectors n between n1 and u (both ways of a convex
 * program's duality: any such n separates them by at least s(n), and the best one by exactly their distance):
 *
 *   s(n) = c.n - R |n - (n.a) a| + min(0, m n.a) - (l1 b1 + l2 top),   n = l1 n1 + l2 u.
 *
 * Where they overlap the greatest s(n) is below zero: the head must be moved by that much to come out of the wedge, which for a flat crown
 * is how deep its deepest point lies below the top. Any n gives a bound on the safe side, so that how well the best is found does not
 * matter to the proof.
 */
export interface HeadAndCrown {
  readonly headRadiusMm: number;
  readonly marginMm: number;
  readonly leanRad: number;
  /** Axial place of the stem from the pocket's axis, mm. */
  readonly besideMm: number;
  /** Height of the flat crown above the pin. */
  readonly topY: number;
  /** Middle of the floor and radius; null for a crown without a pocket. */
  readonly pocket: { readonly x: number; readonly y: number; readonly radiusMm: number } | null;
}

/** Half-spaces round the wall: within 0.01 mm of a round pocket of 60 mm. */
const WALL_FACES = 128;

const FACE_COS = Float64Array.from({ length: WALL_FACES }, (_, k) => Math.cos((2 * Math.PI * k) / WALL_FACES));
const FACE_SIN = Float64Array.from({ length: WALL_FACES }, (_, k) => Math.sin((2 * Math.PI * k) / WALL_FACES));

/** Wedges of a crown, packed: x, y, z of n1 and b1, the angle from n1 to u and its sine. */
const STRIDE = 6;

export interface Crown {
  readonly shape: HeadAndCrown;
  /** Of the lean. */
  readonly sinLean: number;
  readonly cosLean: number;
  readonly wedges: Float64Array;
  readonly count: number;
  /** s(u) less the height of the face's middle: the whole crown lies below its top. */
  readonly overTopMm: number;
  /** By how much the wall's faces lie inside the round pocket, mm. */
  readonly slicingMm: number;
}

export function makeCrown(shape: HeadAndCrown): Crown {
  const { pocket, leanRad, besideMm } = shape;
  const rows: number[] = [];
  const sin = Math.sin(leanRad);
  const cos = Math.cos(leanRad);
  const put = (x: number, y: number, z: number, b: number): void => {
    // u = (0, 1, 0).
    const angle = Math.acos(Math.min(1, Math.max(-1, y)));
    rows.push(x, y, z, b, angle, Math.sin(angle));
  };
  if (pocket === null) put(0, 1, 0, shape.topY);
  else {
    put(sin, cos, 0, sin * pocket.x + cos * pocket.y);
    const radius = pocket.radiusMm * Math.cos(Math.PI / WALL_FACES);
    for (let k = 0; k < WALL_FACES; k++) {
      const x = FACE_COS[k]! * cos;
      const y = -FACE_COS[k]! * sin;
      const z = FACE_SIN[k]!;
      // z is counted from the stem; the pocket's axis lies the other way from it.
      put(-x, -y, -z, -(x * pocket.x + y * pocket.y - z * besideMm + radius));
    }
  }
  return {
    shape,
    sinLean: sin,
    cosLean: cos,
    wedges: Float64Array.from(rows),
    count: rows.length / STRIDE,
    overTopMm: Math.min(0, shape.marginMm * cos) - shape.headRadiusMm * Math.abs(sin) - shape.topY,
    slicingMm: pocket === null ? 0 : pocket.radiusMm * (1 - Math.cos(Math.PI / WALL_FACES)),
  };
}

/**
 * A separating direction for each wedge: x, y, z of n, and what s(n) is at the origin, and the share it was
 * made from. Found for one place of the head it is a good one
 * nearby, and s(n) there is a sum of two products. The last number is the wedge that was nearest last.
 */
export type Directions = Float64Array;

const NX = 0;
const NY = 1;
const NZ = 2;
const AT_ORIGIN = 3;
const SHARE = 4;
const DIRECTION = 5;

/** Halfway between the two normals of each wedge: to begin with. */
export function newDirections(crown: Crown): Directions {
  const out = new Float64Array(crown.count * DIRECTION + 1);
  HEAD[TRIED] = 0.5;
  for (let k = 0; k < crown.count; k++) setDirection(crown, k, out);
  return out;
}

/** Numbers that the functions below are handed and leave: in an array, since a number that is handed over may be a new object each time. */
export const HEAD = new Float64Array(5);
/** Middle of the head's face: x, y. */
export const FACE_X = 0;
export const FACE_Y = 1;
/** A separation that is enough. */
export const ENOUGH = 2;
/** s(n). */
export const APART = 3;
const TRIED = 4;

/** Places of a wedge's direction in `directions`: from `wedge * DIRECTION` on. */
export { DIRECTION, NX, NY, NZ };

/** s(n) with the direction kept for a wedge, for the face at FACE_X, FACE_Y: leaves it in APART. */
export function separation(wedge: number, directions: Directions): void {
  const d = wedge * DIRECTION;
  HEAD[APART] = HEAD[FACE_X]! * directions[d + NX]! + HEAD[FACE_Y]! * directions[d + NY]! + directions[d + AT_ORIGIN]!;
}

/** Keeps for a wedge the direction that is the share TRIED of the way from n1 (0) to u (1). */
function setDirection(crown: Crown, wedge: number, directions: Directions): void {
  const { shape, wedges, sinLean, cosLean } = crown;
  const share = HEAD[TRIED]!;
  const o = wedge * STRIDE;
  const angle = wedges[o + 4]!;
  const sine = wedges[o + 5]!;
  const l1 = sine < 1e-12 ? 1 - share : Math.sin((1 - share) * angle) / sine;
  const l2 = sine < 1e-12 ? share : Math.sin(share * angle) / sine;
  const nx = l1 * wedges[o]!;
  const ny = l1 * wedges[o + 1]! + l2;
  const along = nx * sinLean + ny * cosLean;
  const square = Math.sqrt(Math.max(0, 1 - along * along));
  const d = wedge * DIRECTION;
  directions[d + SHARE] = share;
  directions[d + NX] = nx;
  directions[d + NY] = ny;
  directions[d + NZ] = l1 * wedges[o + 2]!;
  directions[d + AT_ORIGIN] =
    Math.min(0, shape.marginMm * along) - shape.headRadiusMm * square - (l1 * wedges[o + 3]! + l2 * shape.topY);
}

/** s(n) in the direction of the share TRIED: leaves it in APART. */
function tryShare(crown: Crown, wedge: number, directions: Directions): void {
  setDirection(crown, wedge, directions);
  separation(wedge, directions);
}

/** Shares looked at before the best of them is closed in on, where the one kept is no longer near the best. */
const FIRST_SHARES = 8;
/** How near to the best the share kept is thought to be: between two looks at a moving head. */
const NEAR_SHARE = 0.02;
/** How far the best is closed in on: a direction off by a ten-thousandth of the angle is worth a millionth of a millimetre at most, on the safe side. */
const SHARE_CLOSE = 1e-4;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The wedge that was nearest last. */
export function nearestLast(directions: Directions): number {
  return directions[directions.length - 1]!;
}

export function keepNearest(wedge: number, directions: Directions): void {
  directions[directions.length - 1] = wedge;
}

/**
 * Finds the direction with the greatest s(n) for a wedge, or the first that separates it by ENOUGH, for the face at FACE_X, FACE_Y; leaves it in
 * `directions` and the separation in APART.
 */
export function separateBest(crown: Crown, wedge: number, directions: Directions): void {
  const enoughMm = HEAD[ENOUGH]!;
  let best = directions[wedge * DIRECTION + SHARE]!;
  HEAD[TRIED] = best;
  tryShare(crown, wedge, directions);
  let most = HEAD[APART]!;
  if (most >= enoughMm) return;
  let low = Math.max(0, best - NEAR_SHARE);
  let high = Math.min(1, best + NEAR_SHARE);
  HEAD[TRIED] = low;
  tryShare(crown, wedge, directions);
  let beside = HEAD[APART]!;
  if (beside <= most) {
    HEAD[TRIED] = high;
    tryShare(crown, wedge, directions);
    beside = HEAD[APART]!;
  }
  if (beside > most) {
    for (let k = 0; k <= FIRST_SHARES; k++) {
      HEAD[TRIED] = k / FIRST_SHARES;
      tryShare(crown, wedge, directions);
      const value = HEAD[APART]!;
      if (value >= enoughMm) return;
      if (value > most) {
        most = value;
        best = k / FIRST_SHARES;
      }
    }
    low = Math.max(0, best - 1 / FIRST_SHARES);
    high = Math.min(1, best + 1 / FIRST_SHARES);
  }
  let p = high - GOLDEN * (high - low);
  let q = low + GOLDEN * (high - low);
  HEAD[TRIED] = p;
  tryShare(crown, wedge, directions);
  let atP = HEAD[APART]!;
  HEAD[TRIED] = q;
  tryShare(crown, wedge, directions);
  let atQ = HEAD[APART]!;
  while (high - low > SHARE_CLOSE) {
    const left = atP > atQ;
    if (left) {
      high = q;
      q = p;
      atQ = atP;
      p = high - GOLDEN * (high - low);
      HEAD[TRIED] = p;
    } else {
      low = p;
      p = q;
      atP = atQ;
      q = low + GOLDEN * (high - low);
      HEAD[TRIED] = q;
    }
    tryShare(crown, wedge, directions);
    const value = HEAD[APART]!;
    if (value >= enoughMm) return;
    if (left) atP = value;
    else atQ = value;
  }
  HEAD[TRIED] = Math.max(atP, atQ) > most ? (atP > atQ ? p : q) : best;
  tryShare(crown, wedge, directions);
}

/** Gap of the head at a place, and what it is nearest to. */
export interface HeadGap {
  mm: number;
  wedge: number;
  nx: number;
  ny: number;
  nz: number;
}

/** Smallest over all wedges, the one that was nearest last before the others; one that some direction keeps farther away is passed over. */
export function headGap(crown: Crown, x: number, y: number, directions: Directions, out: HeadGap): void {
  HEAD[FACE_X] = x;
  HEAD[FACE_Y] = y;
  let mm = Number.POSITIVE_INFINITY;
  const first = nearestLast(directions);
  for (let n = -1; n < crown.count; n++) {
    const k = n < 0 ? first : n;
    if (n === first) continue;
    separation(k, directions);
    if (HEAD[APART]! >= mm) continue;
    HEAD[ENOUGH] = mm;
    separateBest(crown, k, directions);
    if (HEAD[APART]! >= mm) continue;
    mm = HEAD[APART]!;
    out.wedge = k;
  }
  const d = out.wedge * DIRECTION;
  out.mm = mm;
  out.nx = directions[d + NX]!;
  out.ny = directions[d + NY]!;
  out.nz = directions[d + NZ]!;
  keepNearest(out.wedge, directions);
}
