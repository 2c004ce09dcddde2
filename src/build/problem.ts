/** One thing wrong with a build, as data; sentences are made from it at the edge. */
export interface Problem {
  /** Where: `assemblies[1].crank.stroke`. Empty for the file as a whole. */
  readonly place: string;
  /** The offending value as it stands in the file. */
  readonly value: string;
  /** Which rule is broken, by its name in DEVELOPERS.md. */
  readonly rule: string;
  /** What is allowed, in words. */
  readonly allowed: string;
}

/** "assemblies[1].crank.stroke: 12 in is refused. Allowed: …" */
export function problemSentence(p: Problem): string {
  const where = p.place === '' ? 'The file' : p.place;
  const value = p.value === '' ? '' : ` ${p.value}`;
  return `${where}:${value} is refused (${p.rule}). ${p.allowed}`;
}
