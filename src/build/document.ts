/**
 * The build document, version 1: what a build file holds, as plain immutable data.
 *
 * Every dimension is a `Dim`: a literal that keeps the unit in which it was measured, and where it comes from.
 * Angles in a build are counted from "outward, up" and grow in the direction of crank rotation; `x` ("across") is
 * positive to the side toward which the top of the crank moves. For a clockwise engine, seen from the front, that is
 * to the right; for a counterclockwise engine the whole drawing is the mirror image.
 * `z` ("axial") grows from the front toward the flywheel; zero is the bore centre of cylinder 1.
 */

import type { Camshaft, LiftTable, Valvetrain } from './documentCamshaft.ts';

export type { Camshaft, LiftTable, ValveDims, ValvePocket, Valvetrain } from './documentCamshaft.ts';

import type { FreeLayout, LayoutName } from './documentLayout.ts';
import type { Running } from './documentRunning.ts';
import type {
  Balance,
  Bearings,
  CoreCrank,
  Head,
  LineBored,
  OwnGuide,
  PistonTop,
  Shelf,
  TurnedSurface,
  Wanted,
  Weights,
} from './documentShop.ts';

export type { FreeLayout, LayoutName, NamedLayout } from './documentLayout.ts';

import type { Measured, OutlinePoint } from './measured.ts';

export type { Measured, OutlinePoint } from './measured.ts';

export type Provenance = 'measured' | 'stated' | 'assumed';

/** A dimension as written: `{ "value": "2 5/8 in", "from": "measured" }`. Lengths, or angles as `"66 deg"`. */
export interface Dim {
  readonly value: string;
  readonly from: Provenance;
}

export type CheekSide = 'front' | 'rear';
export type Valve = 'intake' | 'exhaust';

export interface Block {
  readonly layout: LayoutName;
  /** With layout `free`, and only then. */
  readonly freeLayout?: FreeLayout;
  /** Sense of crank rotation seen from the front. */
  readonly rotation: 'clockwise' | 'counterclockwise';
  /** Cylinder numbers in the order they fire, starting with 1. */
  readonly firingOrder: readonly number[];
  readonly bore: Dim;
  /** Crank axis to deck, along the bore. */
  readonly deckHeight: Dim;
  readonly boreSpacing: Dim;
  /** Two banks: axial distance by which bank 2 (in the named layouts cylinders 2, 4, …) stands behind bank 1; 0 for one bank. May be negative. */
  readonly bankOffset: Dim;
  /** Distance of the bore axis from the crank axis, positive toward the side the crankpin moves to just after TDC. */
  readonly boreOffset: Dim;
  /** Height of the lower end of the bore above the crank axis, along the bore. */
  readonly boreBottom: Dim;
  readonly boreWall: Dim;
  /** Relief at the bottom of each bore for the rod: raises the bore's lower edge by `depth` over the axial width, on one side or both. */
  readonly boreNotch?: { readonly depth: Dim; readonly width: Dim; readonly side: 'after-tdc' | 'before-tdc' | 'both' };
  /** Camshaft axis: across (x) and height (y) from the crank axis, before line boring. Absent when the engine has no camshaft in the block. */
  readonly camAxis?: { readonly across: Dim; readonly height: Dim };
  /** Oil pan rails: height of the rail face above the crank axis (negative below), half the clear width between the crankcase walls, wall thickness. */
  readonly panRail: { readonly height: Dim; readonly halfWidth: Dim; readonly wall: Dim };
  /** Main bearing webs: axial thickness; each web stands midway between neighbouring throws and outside the end ones. */
  readonly bulkhead: { readonly thickness: Dim; readonly mainBore: Dim };
  readonly gasketThickness: Dim;
  readonly head?: Head;
  /** For the sums alone: gaps go by the heights as they are entered. */
  readonly lineBored?: LineBored;
  /** Further fixed outlines: oil pump, windage tray, main cap, stud. */
  readonly fixed?: readonly {
    readonly name: string;
    readonly front: Dim;
    readonly rear: Dim;
    readonly outline: readonly OutlinePoint[];
    readonly from: Provenance;
    readonly outlineDeviation?: Dim;
  }[];
}

export interface Counterweight {
  /** Outer radius from the crank axis. */
  readonly radius: Dim;
  readonly halfAngle: Dim;
  /** Radius of the round hub of the cheek about the crank axis. */
  readonly hubRadius: Dim;
  readonly cornerRadius: Dim;
}

export interface Crank {
  readonly stroke: Dim;
  readonly rodJournal: Dim;
  readonly mainJournal: Dim;
  /** Length of each rod journal between its cheeks (fillets not deducted). */
  readonly journalLength: Dim;
  readonly cheekThickness: Dim;
  /** Radius of the cheek about the crankpin. */
  readonly pinEndRadius: Dim;
  readonly counterweight: Counterweight;
  /** Which cheeks carry a counterweight; absent = all. */
  readonly weighted?: readonly { readonly throw: number; readonly side: CheekSide }[];
}

/** `outline`: the whole rod seen along the shaft, traced: crankpin at the origin, small end on +y (DEVELOPERS.md, "Measured outlines"). */
export interface Rod extends Measured {
  readonly length: Dim;
  /** Outside of the big end at its own bore centre, on the rod side and the cap. */
  readonly bigEndRadius: Dim;
  readonly bigEndWidth: Dim;
  /** Half the distance between the bolt axes. */
  readonly boltSpread: Dim;
  /** Half the width of the bolt boss about the bolt axis. */
  readonly boltBossRadius: Dim;
  /** Top of the bolt shoulder (toward the piston) and bottom of the nut or bolt head (toward the pan), both from the big-end centre. */
  readonly shoulderHeight: Dim;
  readonly boltLength: Dim;
  readonly beamWidth: Dim;
  readonly beamThickness: Dim;
  readonly smallEndRadius: Dim;
  readonly smallEndWidth: Dim;
  /** Chamfer of the big end on the side facing the cheek: axial depth and radial height. */
  readonly chamfer?: { readonly axial: Dim; readonly radial: Dim };
  /** Axial offset of the rod's beam and small end from the middle of its big end, away from the cheek it faces; 0 unless offset rods. */
  readonly beamOffset?: Dim;
}

/** `outline`: a pin boss seen along the pin, from the bore axis and the height of the pin; both bosses take it. */
export interface Piston extends Measured {
  /** Pin centre to the flat of the crown. */
  readonly compressionHeight: Dim;
  /** Positive toward the side the crankpin moves to just after TDC. */
  readonly pinOffset: Dim;
  readonly pinDiameter: Dim;
  /** Diameter over the skirt. */
  readonly skirtDiameter: Dim;
  readonly skirtBelowPin: Dim;
  readonly skirtThickness: Dim;
  /** Half angle, about the piston axis, of each skirt panel on the thrust faces; beside it the wall is cut away for the pin bosses up to `reliefBelowPin`. */
  readonly skirtHalfAngle: Dim;
  /** Lower edge of the wall beside the pin bosses: distance below the pin (negative above). */
  readonly reliefBelowPin: Dim;
  readonly crownThickness: Dim;
  /** Clear distance between the pin bosses, where the small end runs. */
  readonly bossGap: Dim;
  /** Distance over the outer faces of the bosses. */
  readonly bossSpan: Dim;
  readonly bossRadius: Dim;
}

/** What one body has of its own, where it differs from the rest: any of its part's dimensions, an axial shift, a measured outline. */
export type Own =
  | {
      readonly body: 'counterweight';
      readonly throw: number;
      readonly side: CheekSide;
      readonly set?: Partial<Counterweight>;
      readonly axialShift?: Dim;
      readonly phase?: Dim;
      readonly outline?: readonly OutlinePoint[];
      readonly outlineFrom?: Provenance;
      readonly outlineDeviation?: Dim;
    }
  | (Measured & {
      readonly body: 'rod';
      readonly cylinder: number;
      readonly set?: Partial<Omit<Rod, keyof Measured>>;
      readonly axialShift?: Dim;
      readonly facing?: CheekSide;
    })
  | (Measured & {
      readonly body: 'piston';
      readonly cylinder: number;
      readonly set?: Partial<Omit<Piston, keyof Measured>>;
    })
  | {
      readonly body: 'lobe';
      readonly cylinder: number;
      readonly valve: Valve;
      readonly lift?: Dim;
      readonly duration?: Dim;
      readonly opening?: Dim;
      readonly table?: LiftTable;
      readonly axialShift?: Dim;
    };

export interface Assembly {
  readonly name: string;
  /** How this assembly comes about, in the shop's words. */
  readonly route: string;
  readonly crank: Crank;
  readonly rod: Rod;
  readonly piston: Piston;
  readonly weights?: Weights;
  readonly pistonTop?: PistonTop;
  /** When the crank is ground from a core. */
  readonly core?: CoreCrank;
  /** When the crank comes from another engine. */
  readonly intoBlock?: readonly TurnedSurface[];
  readonly bearings?: Bearings;
  readonly balance?: Balance;
  readonly wanted?: Wanted;
  /** What the running engine does to its gaps. */
  readonly running?: Running;
  readonly camshaft?: Camshaft;
  readonly valvetrain?: Valvetrain;
  readonly own?: readonly Own[];
}

export type GapKind =
  | 'counterweight-piston'
  | 'counterweight-block'
  | 'counterweight-camshaft'
  | 'rod-camshaft'
  | 'rod-block'
  | 'rod-piston'
  | 'rod-opposite-piston'
  | 'piston-piston'
  | 'piston-intake-valve'
  | 'piston-exhaust-valve'
  | 'deck';

/** One gap measured on the engine put together for a trial, to be set beside the one that is computed. */
export interface MockUpEntry {
  /** Name of the assembly that was put together. */
  readonly assembly: string;
  /** The two bodies by their names, in either order: "counterweight 2 rear" and "piston 3"; or "piston 3" and "deck". */
  readonly between: readonly [string, string];
  /** Where the crank stood: a literal such as "176 deg" after the true TDC of a cylinder, after its firing one where a lobe or a valve is involved. Left out: the smallest found while turning. */
  readonly at?: { readonly cylinder: number; readonly afterTdc: string };
  /** A length literal, with its uncertainty as tolerance: ".055 ±.002 in". Of the deck, negative where the crown stands above it. */
  readonly measured: string;
  /** Clay, feeler gauge, dial indicator, plastic gauge strip, or something else. */
  readonly with: string;
  /** Day of the measurement, "2026-11-25". */
  readonly date: string;
  readonly note?: string;
}

/** What the papers of a job carry beside the build: whose it is, when, and what else is to be said. */
export interface Job {
  /** By what the customer knows the job: a name, an order number. */
  readonly reference?: string;
  /** Day that stands on the papers, "2026-11-25". Left out: the day on which they are made. */
  readonly date?: string;
  readonly notes?: string;
}

export interface BuildDocument {
  readonly $schema?: string;
  readonly format: 'strokewright-build';
  readonly version: 1;
  readonly name: string;
  readonly note?: string;
  readonly job?: Job;
  /** Names of two of the assemblies. */
  readonly replaced: string;
  readonly proposed: string;
  readonly shownUnits: 'in' | 'mm' | 'both';
  /** Engine speed at which piston speeds are shown, a literal such as "3600 rpm". */
  readonly speed: Dim;
  readonly block: Block;
  /** Smallest acceptable static gap by kind; a kind left out takes the default with its source. */
  readonly limits?: { readonly [K in GapKind]?: Dim };
  /** Taken off every gap that rests on assumed outlines before it is held against its limit. */
  readonly assumedAllowance?: Dim;
  readonly shelf?: Shelf;
  readonly guides?: readonly OwnGuide[];
  /**
   * What the tolerance of a dimension means for chance builds: any value of its band alike, or a normal distribution about
   * the band's middle with the band's ends so many standard deviations from it. Left out: uniform.
   */
  readonly tolerances?: { readonly as: 'uniform' } | { readonly as: 'normal'; readonly sigmas: number };
  readonly assemblies: readonly Assembly[];
  /** What was measured on the mock-up. */
  readonly mockUp?: readonly MockUpEntry[];
}
