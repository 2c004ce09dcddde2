/** One assembly and one cylinder of a build, laid out: what the quantities of a lesson are worked out from. */
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import type { Assembly, BuildDocument } from '../../build/document.ts';

/** What a quantity is worked out from. Engines are laid out once for each assembly and document. */
export interface Setting {
  readonly doc: BuildDocument;
  readonly assembly: Assembly;
  /** Place of the assembly in the document. */
  readonly index: number;
  readonly engine: Engine;
  readonly cylinder: Cylinder;
}

/** A quantity that the build can't give, in words: there is no such pair, no core, no camshaft. */
export class NotThere extends Error {}

export interface Settings {
  readonly of: (assembly: string | undefined, cylinder: number | undefined) => Setting;
}

/** Lays the assemblies of a document out as they are asked for. The document must have passed its rules. */
export function settingsOf(doc: BuildDocument): Settings {
  const engines = new Map<string, Engine>();
  return {
    of: (name = doc.assemblies[0]!.name, number = 1) => {
      const index = doc.assemblies.findIndex((a) => a.name === name);
      if (index < 0) throw new NotThere(`there is no assembly ${name}`);
      const engine = engines.get(name) ?? layOut(doc, name);
      engines.set(name, engine);
      const cylinder = engine.cylinders.find((c) => c.number === number);
      if (cylinder === undefined) throw new NotThere(`the engine has no cylinder ${number}`);
      return { doc, assembly: doc.assemblies[index]!, index, engine, cylinder };
    },
  };
}
