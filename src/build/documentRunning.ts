/**
 * What a running engine does to its gaps: clearances that are taken up, rods that stretch, pistons that rock, parts that grow
 * with heat. Each allowance is switched on by stating its figures, and off by taking them out; all may be left out.
 */
import type { Dim } from './document.ts';

export interface Running {
  /** Speed at which the rod stretches; left out = the build's speed. */
  readonly speed?: Dim;
  /** Clearance of a main bearing, of a rod bearing, and of the wrist pin in piston and small end together: on the diameter. */
  readonly mainClearance?: Dim;
  readonly rodClearance?: Dim;
  readonly pinClearance?: Dim;
  /** Section of the rod's beam, and the modulus of elasticity of what it is made of. */
  readonly rodSection?: Dim;
  readonly rodModulus?: Dim;
  /** Piston skirt in its bore, on the diameter, and the length along the bore over which the skirt guides. */
  readonly skirtClearance?: Dim;
  readonly guideLength?: Dim;
  /** Linear growth of a part's material, and how much warmer it runs than it was measured. */
  readonly crankGrowth?: Dim;
  readonly crankWarmer?: Dim;
  readonly rodGrowth?: Dim;
  readonly rodWarmer?: Dim;
  readonly pistonGrowth?: Dim;
  readonly pistonWarmer?: Dim;
  readonly blockGrowth?: Dim;
  readonly blockWarmer?: Dim;
}
