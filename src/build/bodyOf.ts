/**
 * The dimensions of one body: those of its part, with what the body has of its own put over them. Also says where in the document
 * each one stands, so that a problem can name its place.
 */
import type {
  Assembly,
  CheekSide,
  Counterweight,
  Dim,
  Measured,
  OutlinePoint,
  Own,
  Piston,
  Provenance,
  Rod,
} from './document.ts';
import type { Layout } from './layouts.ts';

export type OwnOf<B extends Own['body']> = Extract<Own, { readonly body: B }>;

/** The part's dimensions with the body's own over them; `own` is the entry they come from. */
export interface Resolved<Part, B extends Own['body']> {
  readonly dims: Part;
  readonly own?: OwnOf<B>;
  /** Place of the own entry inside the assembly, such as "own[3]". */
  readonly ownPlace?: string;
}

export function rodOf(assembly: Assembly, cylinder: number): Resolved<Rod, 'rod'> {
  return resolved(
    assembly,
    assembly.rod,
    (own): own is OwnOf<'rod'> => own.body === 'rod' && own.cylinder === cylinder,
  );
}

export function pistonOf(assembly: Assembly, cylinder: number): Resolved<Piston, 'piston'> {
  return resolved(
    assembly,
    assembly.piston,
    (own): own is OwnOf<'piston'> => own.body === 'piston' && own.cylinder === cylinder,
  );
}

export function counterweightOf(
  assembly: Assembly,
  throwNumber: number,
  side: CheekSide,
): Resolved<Counterweight, 'counterweight'> {
  return resolved(
    assembly,
    assembly.crank.counterweight,
    (own): own is OwnOf<'counterweight'> =>
      own.body === 'counterweight' && own.throw === throwNumber && own.side === side,
  );
}

/** The dimensions of a part, by name. */
export type RodField = Exclude<keyof Rod, keyof Measured>;
export type PistonField = Exclude<keyof Piston, keyof Measured>;

/** The measured outline that stands for a body. */
export interface MeasuredOutline {
  readonly points: readonly OutlinePoint[];
  readonly from: Provenance;
  readonly deviation: Dim | undefined;
  /** Whether it is the body's own; else that of the whole set. */
  readonly own: boolean;
}

/** The body's own outline, else that of the set; undefined where the body is drawn from its dimensions. Deviation and origin go with their outline. */
export function measuredOf(body: { readonly dims: object; readonly own?: object }): MeasuredOutline | undefined {
  const sets: readonly Measured[] = [body.own ?? {}, body.dims];
  const found = sets.findIndex((m) => m.outline !== undefined && m.outlineFrom !== undefined);
  if (found < 0) return undefined;
  const { outline, outlineFrom, outlineDeviation } = sets[found]!;
  return { points: outline!, from: outlineFrom!, deviation: outlineDeviation, own: found === 0 };
}

/** Cheeks that carry a counterweight, front to rear. */
export function weightedCheeks(assembly: Assembly, layout: Layout): readonly { throw: number; side: CheekSide }[] {
  const cheeks = layout.throwPhasesDeg.flatMap((_, k) =>
    (['front', 'rear'] as const).map((side) => ({ throw: k + 1, side })),
  );
  const weighted = assembly.crank.weighted;
  if (weighted === undefined) return cheeks;
  return cheeks.filter((cheek) => weighted.some((w) => w.throw === cheek.throw && w.side === cheek.side));
}

function resolved<Part extends object, O extends Own & { readonly set?: Partial<Part> }>(
  assembly: Assembly,
  part: Part,
  mine: (own: Own) => own is O,
): { dims: Part; own?: O; ownPlace?: string } {
  const index = assembly.own?.findIndex(mine) ?? -1;
  const own = assembly.own?.[index] as O | undefined;
  if (own === undefined) return { dims: part };
  return { dims: { ...part, ...own.set }, own, ownPlace: `own[${index}]` };
}
