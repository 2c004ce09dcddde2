/** The assembly being replaced, laid out, for its ghost over the one on show. */
import type { Engine } from '../assembly/engine.ts';
import { layOut } from '../assembly/layOut.ts';
import type { Assembly, BuildDocument } from '../build/document.ts';
import { checkBuild } from '../build/rules.ts';
import type { Store } from './state.ts';

/**
 * Returns the way to ask for it; null while it is itself on show, and while it can't be laid out with the block as typed.
 * Laid out again only when the block or that assembly changed.
 */
export function replacedOf(store: Store): () => Engine | null {
  let of: { block: BuildDocument['block']; assembly: Assembly; engine: Engine | null } | null = null;
  return () => {
    const { doc, assembly: shown, refused } = store.state;
    const assembly = doc.assemblies.find((a) => a.name === doc.replaced);
    if (assembly === undefined || shown === doc.replaced) return null;
    if (of !== null && of.block === doc.block && of.assembly === assembly) return of.engine;
    // While the build as typed is refused the picture is of the last one that could be laid out, and so is the ghost.
    if (refused.length > 0 && of !== null) return of.engine;
    const alone: BuildDocument = { ...doc, assemblies: [assembly], proposed: assembly.name };
    of = { block: doc.block, assembly, engine: checkBuild(alone).length > 0 ? null : layOut(doc, doc.replaced) };
    return of.engine;
  };
}
