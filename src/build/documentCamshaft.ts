/** The build document's camshaft: lobes as sold or as measured, and how the shaft is set. */
import type { Dim, Provenance } from './document.ts';

/**
 * Lifts of one lobe as measured on a follower of the camshaft's kind. `at`: cam degrees from the nose, negative on the opening flank,
 * rising; `lift`: above the base circle, zero at both ends. Literals, which share `from`.
 */
export interface LiftTable {
  readonly from: Provenance;
  /** Every lift is right within this; the curve passes each of them no farther off. */
  readonly within: Dim;
  readonly points: readonly { readonly at: string; readonly lift: string }[];
}

export interface Camshaft {
  /** Diameter. */
  readonly baseCircle: Dim;
  readonly intakeLift: Dim;
  readonly exhaustLift: Dim;
  /** Crank degrees between the points where the lobe lift equals `durationAtLift`. */
  readonly intakeDuration: Dim;
  readonly exhaustDuration: Dim;
  readonly durationAtLift: Dim;
  /** Unlike flanks: crank degrees from the opening point at `durationAtLift` to the nose; the rest of the duration is the closing flank. Absent: half. */
  readonly intakeOpening?: Dim;
  readonly exhaustOpening?: Dim;
  /** Measured lifts in the place of the law. */
  readonly intakeTable?: LiftTable;
  readonly exhaustTable?: LiftTable;
  /** Cam degrees between the noses of the two lobes of a cylinder. */
  readonly lobeSeparation: Dim;
  /** Crank degrees from the gas-exchange TDC to the greatest intake lift. */
  readonly intakeCentreline: Dim;
  /** Crank degrees by which the camshaft is set ahead of that: the greatest intake lift comes at intakeCentreline - advance. Negative: retarded. */
  readonly advance?: Dim;
  /** Turning the same way as the crank (chain, belt) or the opposite way (pair of gears). */
  readonly sense: 'same' | 'opposite';
  readonly law: '3-4-5' | 'cycloidal';
  readonly follower: { readonly kind: 'flat' } | { readonly kind: 'roller'; readonly radius: Dim };
  /** Direction of follower travel, one per bank (one for an inline engine), from up, in the direction of rotation. */
  readonly followerAngles: readonly Dim[];
  readonly coreDiameter: Dim;
  readonly lobeWidth: Dim;
  /** Axial centre of each cylinder's lobes from that cylinder's bore centre. */
  readonly intakeAxial: Dim;
  readonly exhaustAxial: Dim;
}

/** A pocket for a valve in the piston crown: round about an axis that leans as the valve does, its floor square to it. */
export interface ValvePocket {
  /** Crown to the deepest place of the floor, along the bore. */
  readonly depth: Dim;
  readonly diameter: Dim;
  /** Where its axis meets the crown, from the bore axis; counted as those of the valve. */
  readonly across: Dim;
  readonly axial: Dim;
}

export interface ValveDims {
  readonly headDiameter: Dim;
  /** Thickness of the head's rim below its seat. */
  readonly margin: Dim;
  /** Lean of the stem from the bore axis, seen along the crank. Positive: going up it leans as `across` counts. */
  readonly angle: Dim;
  /**
   * Where the valve's axis meets the face of the head, from the bore axis: across, positive toward the other bank (in an engine with one
   * bank toward the side the crankpin moves to just after TDC), and axial, toward the flywheel.
   */
  readonly across: Dim;
  readonly axial: Dim;
  /** Middle of the shut valve's face above the face of the head, along the bore; negative where it stands out of it. */
  readonly recession: Dim;
  /** Clearance at the valve, set or found; 0 with hydraulic followers. */
  readonly lash: Dim;
  readonly pocket?: ValvePocket;
}

/** What the camshaft drives, alike in every cylinder. */
export interface Valvetrain {
  /** Valve lift over lobe lift. */
  readonly rockerRatio: number;
  readonly intake: ValveDims;
  readonly exhaust: ValveDims;
}
