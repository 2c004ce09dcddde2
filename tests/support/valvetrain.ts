/** Invented valves for the example V8: stems that lean 18 degrees, pockets a little wider than the heads. */
import type { Valvetrain } from '../../src/build/document.ts';
import { dim } from './exampleBuild.ts';

export function exampleValvetrain(): Valvetrain {
  return {
    rockerRatio: 1.6,
    intake: {
      headDiameter: dim('1.900 in'),
      margin: dim('.060 in'),
      angle: dim('18 deg'),
      across: dim('-.150 in'),
      axial: dim('.850 in'),
      recession: dim('.350 in'),
      lash: dim('.010 in'),
      pocket: { depth: dim('.160 in'), diameter: dim('2.150 in'), across: dim('-.150 in'), axial: dim('.850 in') },
    },
    exhaust: {
      headDiameter: dim('1.560 in'),
      margin: dim('.070 in'),
      angle: dim('18 deg'),
      across: dim('-.150 in'),
      axial: dim('-.950 in'),
      recession: dim('.310 in'),
      lash: dim('.012 in'),
      pocket: { depth: dim('.160 in'), diameter: dim('1.800 in'), across: dim('-.150 in'), axial: dim('-.950 in') },
    },
  };
}
