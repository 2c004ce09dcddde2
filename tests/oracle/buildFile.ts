/** A build file read anew for checks, from the words of the build document: no part of the program is used. */

export interface Dim {
  readonly value: string;
}

type Dims = Readonly<Record<string, Dim>>;

export interface OutlinePoint {
  readonly x: Dim;
  readonly y: Dim;
  readonly bulge?: number;
}

/** One entry of what a body has of its own; which names it holds depends on the body. */
export interface OwnEntry {
  readonly body: string;
  readonly cylinder?: number;
  readonly throw?: number;
  readonly side?: string;
  readonly valve?: string;
  readonly facing?: string;
  readonly set?: Dims;
  readonly axialShift?: Dim;
  readonly phase?: Dim;
  readonly lift?: Dim;
  readonly duration?: Dim;
  readonly opening?: Dim;
  readonly outline?: readonly OutlinePoint[];
}

export interface CamFile {
  readonly baseCircle: Dim;
  readonly intakeLift: Dim;
  readonly exhaustLift: Dim;
  readonly intakeDuration: Dim;
  readonly exhaustDuration: Dim;
  readonly durationAtLift: Dim;
  readonly intakeOpening?: Dim;
  readonly exhaustOpening?: Dim;
  readonly lobeSeparation: Dim;
  readonly intakeCentreline: Dim;
  readonly advance?: Dim;
  readonly sense: string;
  readonly law: string;
  readonly follower: { readonly kind: string; readonly radius?: Dim };
  readonly followerAngles: readonly Dim[];
  readonly coreDiameter: Dim;
  readonly lobeWidth: Dim;
  readonly intakeAxial: Dim;
  readonly exhaustAxial: Dim;
}

export interface AssemblyFile {
  readonly name: string;
  readonly crank: {
    readonly stroke: Dim;
    readonly journalLength: Dim;
    readonly cheekThickness: Dim;
    readonly pinEndRadius: Dim;
    readonly counterweight: Dims;
    readonly weighted?: readonly { readonly throw: number; readonly side: string }[];
  };
  readonly rod: Dims;
  readonly piston: Dims;
  readonly camshaft?: CamFile;
  readonly own?: readonly OwnEntry[];
}

export interface BuildFile {
  readonly proposed: string;
  readonly block: {
    readonly layout: string;
    readonly freeLayout?: {
      readonly banks: readonly { readonly angle: Dim }[];
      readonly throws: readonly { readonly phase: Dim }[];
      readonly cylinders: readonly {
        readonly cylinder: number;
        readonly bank: number;
        readonly throw: number;
        readonly pinSplit?: Dim;
      }[];
    };
    readonly rotation: string;
    readonly firingOrder: readonly number[];
    readonly bore: Dim;
    readonly deckHeight: Dim;
    readonly boreSpacing: Dim;
    readonly bankOffset: Dim;
    readonly boreOffset: Dim;
    readonly boreBottom: Dim;
    readonly boreWall: Dim;
    readonly boreNotch?: { readonly depth: Dim; readonly width: Dim; readonly side: string };
    readonly camAxis?: { readonly across: Dim; readonly height: Dim };
    readonly panRail: { readonly height: Dim; readonly halfWidth: Dim; readonly wall: Dim };
    readonly fixed?: readonly {
      readonly name: string;
      readonly front: Dim;
      readonly rear: Dim;
      readonly outline: readonly OutlinePoint[];
    }[];
  };
  readonly assemblies: readonly AssemblyFile[];
}

const IN_MM: Readonly<Record<string, number>> = { in: 25.4, '"': 25.4, thou: 0.0254, mm: 1, deg: 1, '°': 1 };

/** Millimetres or degrees; a tolerance is left aside. */
function read(dim: Dim): number {
  const whole = /^([-+−]?)\s*(.*?)\s*(in|"|thou|mm|deg|°)$/.exec(dim.value.trim());
  if (whole === null) throw new RangeError(`${dim.value} is not read here`);
  const number = whole[2]!.split(/[±+]/)[0]!.trim();
  const fraction = /^(?:(\d+)[ -]+)?(\d+)\/(\d+)$/.exec(number);
  const value = fraction ? Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]) : Number(number);
  if (!Number.isFinite(value)) throw new RangeError(`${dim.value} is not read here`);
  return (whole[1] === '-' || whole[1] === '−' ? -1 : 1) * value * IN_MM[whole[3]!]!;
}

export const mm = read;
export const rad = (dim: Dim): number => (read(dim) * Math.PI) / 180;
