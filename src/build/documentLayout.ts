/** Where cylinders stand: the layouts that have a name, and one of its own. */
import type { Dim } from './document.ts';

/** Layouts of the table in layouts.ts. `v8-cross-plane` has cylinder 1 on the right bank, `v8-cross-plane-1-left` on the left, seen from the flywheel end of a clockwise engine. */
export type NamedLayout =
  | 'single'
  | 'inline-3'
  | 'inline-4'
  | 'inline-5'
  | 'inline-6'
  | 'v6-90-shared-pins'
  | 'v6-90-split-pins'
  | 'v6-60-split-pins'
  | 'v8-cross-plane'
  | 'v8-cross-plane-1-left'
  | 'v8-flat-plane'
  | 'flat-4';

/** `free`: given throw by throw in the block's `freeLayout`. */
export type LayoutName = NamedLayout | 'free';

/** A layout of its own: banks, throws front to rear, and where each cylinder stands. */
export interface FreeLayout {
  /** One or two: the angle of each bank's bores from up. */
  readonly banks: readonly { readonly angle: Dim }[];
  /** Front to rear: the direction of each throw, counted from any line of the crank that is the same for all. */
  readonly throws: readonly { readonly phase: Dim }[];
  readonly cylinders: readonly {
    readonly cylinder: number;
    readonly bank: number;
    readonly throw: number;
    /** Split pins: how far this cylinder's own pin stands ahead of its throw's phase; left out on a shared pin. */
    readonly pinSplit?: Dim;
  }[];
}
