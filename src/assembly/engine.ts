/**
 * What an assembly of a build is once laid out: cylinders, bodies with their outlines in axial layers, and the pairs
 * of bodies whose gaps are asked for. Plain data for the sweep and for the picture; millimetres and radians.
 *
 * All of it is in the canonical frame of a clockwise engine. For a counterclockwise build `mirrored` is true: x of
 * everything shown or reported is negated.
 */
import type { GapKind, Valve } from '../build/document.ts';
import type { LayeredBody } from '../core/clearance/cells.ts';
import type { Crown } from '../core/clearance/headAndCrown.ts';
import type { Layer, RoundLayer } from '../core/outline/layers.ts';
import type { Outline } from '../core/outline/outline.ts';
import type { Motion } from '../core/plane/pose.ts';

export type { Layer, RoundLayer } from '../core/outline/layers.ts';

export interface SliderCrankDims {
  readonly crankRadiusMm: number;
  readonly rodLengthMm: number;
  /** Offset of the pin line from the crank axis, positive toward the side the crankpin moves to just after TDC. */
  readonly offsetMm: number;
}

export interface Cylinder {
  /** Cylinder number, from 1. */
  readonly number: number;
  /** 1 or 2: the bank it stands on. */
  readonly bank: number;
  readonly bankAngleRad: number;
  readonly throw: number;
  readonly boreCentreMm: number;
  readonly boreOffsetMm: number;
  readonly boreRadiusMm: number;
  readonly slider: SliderCrankDims;
  /** Angle of the crankpin from this cylinder's bore axis = crank angle + this. */
  readonly alphaAtZeroRad: number;
  /** Crank angle, 0 to 4 pi, at which the crankpin passes the line through the crank axis parallel to the bore, outward, as the power stroke begins. */
  readonly firingPinRad: number;
  /** Crank angle of the true TDC there: with an offset a fraction of a degree from it. */
  readonly firingTdcRad: number;
  /** Crank angle of true TDC and of true BDC next after it, 0 to 2 pi, from the crank angle's own zero. */
  readonly tdcRad: number;
  readonly bdcRad: number;
  readonly deckClearanceMm: number;
}

export type BodyKind = 'counterweight' | 'journal' | 'rod' | 'piston' | 'lobe' | 'cam core' | 'valve' | 'block';

/** How an outline is drawn: cut by the section plane, seen behind it, hidden, or as a light construction line. */
export type DrawnStyle = 'cut' | 'behind' | 'hidden' | 'construction';

export interface DrawnShape {
  readonly style: DrawnStyle;
  readonly outline: Outline;
  /** Holes in the outline, clockwise or counterclockwise alike. */
  readonly holes?: readonly Outline[];
  /** Section hatching: slope in degrees from horizontal, spacing in mm; cut shapes only. */
  readonly hatch?: { readonly slopeDeg: number; readonly spacingMm: number };
}

export interface Body {
  /** Stable name, also what is printed: "counterweight 2 rear", "rod 3", "piston 3", "intake lobe 3", "cam core", "block". */
  readonly name: string;
  readonly kind: BodyKind;
  /** The cylinder it belongs to, where it belongs to one. */
  readonly cylinder?: number;
  readonly throw?: number;
  readonly motion: Motion;
  readonly layers: readonly Layer[];
  readonly round: readonly RoundLayer[];
  readonly drawn: readonly DrawnShape[];
  /** Axial extent of everything drawn: the section plane cuts the body where it lies inside. */
  readonly z0Mm: number;
  readonly z1Mm: number;
  /** Dimensions of its outline that are assumed, by their names. */
  readonly assumed: readonly string[];
  /** Equal for two bodies of the same outlines and layers relative to `baseMm`. */
  readonly shapeKey: string;
  /** Axial place its layers are counted from in the key: the bore centre, the throw. */
  readonly baseMm: number;
  /** What its motion depends on, for telling that two pairs move alike. */
  readonly move: MoveKey;
  /**
   * What `shapeKey` and `baseMm` would be of its mirror image, right for left and front for rear; absent where that is not known. No base where
   * its layers are even, so that nothing but the stretches over which they meet others matters.
   */
  readonly mirror?: { readonly shapeKey: string; readonly baseMm?: number };
  /** Of a valve: its head and the crown of its piston. */
  readonly head?: HeadPair;
}

/** A valve head and the crown it comes down on, in the piston's frame, where the crown stands still: judged in space. */
export interface HeadPair {
  readonly crown: Crown;
  readonly motion: Motion;
}

export type MoveKey =
  | { readonly kind: 'fixed'; readonly turnRad: number }
  | { readonly kind: 'crank'; readonly phaseRad: number }
  | {
      readonly kind: 'cam';
      readonly xMm: number;
      readonly yMm: number;
      readonly ratio: number;
      readonly phaseRad: number;
    }
  | {
      readonly kind: 'valve';
      readonly valve: Valve;
      /** Of the stem, clockwise from up. */
      readonly turnRad: number;
      /** Middle of the shut valve's face. */
      readonly xMm: number;
      readonly yMm: number;
      /** Lobe, rocker ratio and lash. */
      readonly train: string;
      readonly peakRad: number;
    }
  | { readonly kind: 'rod' | 'piston'; readonly cylinder: Cylinder };

export interface Pair {
  /** "counterweight 2 rear · piston 3". */
  readonly id: string;
  readonly kind: GapKind;
  readonly a: Body;
  readonly b: Body;
  /** Crank angle after which the pair repeats: 2 pi or 4 pi. */
  readonly periodRad: number;
  /** Cylinder whose TDC the angle is counted from. */
  readonly cylinder: number;
  readonly limitMm: number;
  readonly assumed: readonly string[];
  /** Pairs with the same key have the same geometry up to a crank-angle shift of `keyShiftRad` and a turn of the section by `keyTurnRad`. */
  readonly key: string;
  readonly keyShiftRad: number;
  readonly keyTurnRad: number;
  /** The key that its mirror image would have, right for left (assembly/twins.ts); `reversed`: with the crank turning the other way. */
  readonly twin?: { readonly key: string; readonly reversed: boolean };
  /** The same two bodies in a frame that moves with one of them, where more of their motion cancels: used for the certificate. */
  readonly relative?: { readonly a: LayeredBody; readonly b: LayeredBody };
  /** A valve and its piston: takes the place of layers. */
  readonly head?: HeadPair;
}

export interface Engine {
  readonly assembly: string;
  readonly mirrored: boolean;
  /** 4 pi when there is a camshaft, else 2 pi. */
  readonly cycleRad: number;
  readonly cylinders: readonly Cylinder[];
  readonly bodies: readonly Body[];
  readonly pairs: readonly Pair[];
  readonly camAxisMm?: { readonly x: number; readonly y: number };
  /** Crank seen from the side, front to rear: for the side strip. */
  readonly side: readonly SideShape[];
}

/** A rectangle of the side view at crank angle 0: axial range and radial range, turning with the crank at a phase. */
export interface SideShape {
  readonly kind: 'main' | 'pin' | 'cheek' | 'counterweight' | 'rod';
  readonly name: string;
  readonly throw?: number;
  readonly cylinder?: number;
  readonly z0Mm: number;
  readonly z1Mm: number;
  /** Centre of the shape from the crank axis, and half its height seen square on. */
  readonly phaseRad: number;
  readonly centreMm: number;
  readonly halfHeightMm: number;
}
