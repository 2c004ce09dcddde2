/**
 * What the shop's sums need beside the shape of the parts: weights, volumes, the core crank before grinding, turned
 * diameters of a crank from another engine, bearings, balance, and the list of parts that can be had. All of it may be
 * left out; a sum that lacks a figure says which.
 */
import type { Dim } from './document.ts';

/** Weights of one cylinder's parts, as the scale shows them. */
export interface Weights {
  readonly piston?: Dim;
  readonly pin?: Dim;
  /** All rings of one piston. */
  readonly rings?: Dim;
  /** Both locks of one pin; zero with a pressed pin. */
  readonly locks?: Dim;
  /** Two-scale weighing of a rod with its bolts; the two must add up to the whole. */
  readonly rodBigEnd?: Dim;
  readonly rodSmallEnd?: Dim;
  readonly rodTotal?: Dim;
  /** Both shells of one rod. */
  readonly bearing?: Dim;
  /** Held in the oil ways of one crankpin and its rods. */
  readonly oil?: Dim;
  readonly crankshaft?: Dim;
}

/** Of one cylinder, cylinder head in place. */
export interface Head {
  readonly chamberVolume?: Dim;
  /** Hole of the gasket; left out = the bore. */
  readonly gasketBore?: Dim;
}

/** What line boring did to the block since its heights were measured. */
export interface LineBored {
  /** By how much the crank axis moved toward the deck. */
  readonly rise: Dim;
}

/** Of a piston, for compression ratio and for the ends of its bore. */
export interface PistonTop {
  /** Dish and valve pockets positive, a dome negative. */
  readonly dishVolume?: Dim;
  /** Crown to the top ring, and the diameter there: the crevice. */
  readonly topLandHeight?: Dim;
  readonly topLandDiameter?: Dim;
  /** Crown to the lower edge of the oil-ring groove. */
  readonly oilGrooveBottom?: Dim;
  readonly pinLength?: Dim;
  /** Between the locks, where the pin and its end play go. */
  readonly lockSpan?: Dim;
}

/** The crank before it is ground. Its throws are ground to `crank.stroke` and `crank.rodJournal`. */
export interface CoreCrank {
  readonly stroke?: Dim;
  /** Smallest worn diameter. */
  readonly rodJournal?: Dim;
  /** To come off all round for a clean surface, on the radius. */
  readonly leastStock?: Dim;
  /** Depth of the hardened case; left out when the core is not hardened or it is not known. */
  readonly caseDepth?: Dim;
  readonly counterweightRadius?: Dim;
  readonly weight?: Dim;
  /** Throws that were measured by themselves. */
  readonly throws?: readonly {
    readonly throw: number;
    /** Crank radius. */
    readonly radius?: Dim;
    readonly rodJournal?: Dim;
    /** By how much the throw is off its index. */
    readonly indexError?: Dim;
  }[];
}

/** A turned surface of a crank from another engine, and what this block takes. */
export interface TurnedSurface {
  readonly name: string;
  readonly is: 'diameter' | 'width';
  readonly has: Dim;
  readonly takes: Dim;
}

export interface Bearings {
  readonly rodHousing?: Dim;
  readonly rodShell?: Dim;
  readonly mainHousing?: Dim;
  readonly mainShell?: Dim;
  /** Length of the loaded film along the shaft. */
  readonly rodFilm?: Dim;
  readonly mainFilm?: Dim;
  /** Oil at the bearing, from hot and thin to cool and thick. */
  readonly oilThin?: Dim;
  readonly oilThick?: Dim;
  /** Width between the thrust faces of the crankshaft, and over the flanges of the thrust bearing. */
  readonly thrustFaces?: Dim;
  readonly thrustBearing?: Dim;
  /** Fillet radius of the rod journals. */
  readonly rodFillet?: Dim;
  /** Angle of the oil hole of a rod journal from outward, in the direction of rotation, before grinding. */
  readonly oilHole?: Dim;
}

export interface Balance {
  /** Share of the reciprocating weight taken as turning with the pin, 0 to 1; left out = the layout's usual one. */
  readonly factor?: number;
  /** Bobweight of one crankpin to which the core was balanced. */
  readonly coreBobweight?: Dim;
  /** Where weight is added or taken: in the crank's own counterweights, or outside at damper and flywheel. */
  readonly correction?: 'internal' | 'external';
  /** Planes of correction along the shaft, and the radius at which mass is added or taken. */
  readonly frontPlane?: Dim;
  readonly rearPlane?: Dim;
  readonly radius?: Dim;
  /** Hole or plug. */
  readonly drill?: Dim;
  readonly plug?: 'tungsten alloy' | 'lead';
  /** Balance quality grade in mm/s, and the weight of what turns. */
  readonly grade?: number;
}

/** What is wanted, where a sum is to be solved for one of its parts. */
export interface Wanted {
  readonly compressionRatio?: number;
  readonly deckClearance?: Dim;
  readonly sideClearance?: Dim;
}

/** A rod that the shop can get. */
export interface ShelfRod {
  readonly name: string;
  readonly length: Dim;
  readonly bigEndBore?: Dim;
  readonly bigEndWidth?: Dim;
  readonly smallEndBore?: Dim;
  readonly bigEndWeight?: Dim;
  readonly smallEndWeight?: Dim;
  readonly price?: string;
}

/** A piston that the shop can get. */
export interface ShelfPiston {
  readonly name: string;
  readonly compressionHeight: Dim;
  readonly bore?: Dim;
  readonly pinDiameter?: Dim;
  readonly dishVolume?: Dim;
  readonly skirtBelowPin?: Dim;
  readonly weight?: Dim;
  readonly price?: string;
}

export interface Shelf {
  readonly rods?: readonly ShelfRod[];
  readonly pistons?: readonly ShelfPiston[];
}

/** A guide's range as the shop wants it: literals or plain numbers as the guide is given in. */
export interface OwnGuide {
  readonly guide: string;
  readonly low?: string;
  readonly high?: string;
  readonly source: string;
}
