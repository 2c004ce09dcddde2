/** Random builds whose bodies have dimensions of their own. */
import type { RandomBuild } from '../examine/randomBuild.ts';
import { mm } from '../oracle/buildFile.ts';
import { between } from '../oracle/random.ts';

type Random = () => number;

/** An entry of its own for many bodies, each with one dimension or another a little off. */
export function withOwnEntries(file: RandomBuild, random: Random): unknown {
  const copy = structuredClone(file) as unknown as {
    assemblies: { own?: unknown[]; crank: Record<string, unknown>; rod: object; piston: object; camshaft?: object }[];
    block: { freeLayout?: { cylinders: unknown[]; throws: unknown[] }; firingOrder: number[] };
  };
  const a = copy.assemblies[0]!;
  const cylinders = copy.block.firingOrder.length;
  const throws =
    copy.block.freeLayout?.throws.length ?? (file.block.layout.startsWith('v') ? cylinders / 2 : cylinders);
  const off = (dim: { value: string }): unknown => {
    const value = mm(dim) * (1 + between(random, -0.004, 0.004));
    const unit = dim.value.endsWith('deg') ? 'deg' : 'mm';
    return { value: `${value.toFixed(6)} ${unit}`, from: 'measured' };
  };
  const one = (dims: object): Record<string, unknown> => {
    const keys = Object.keys(dims).filter(
      (k) => typeof (dims as Record<string, { value?: unknown }>)[k]?.value === 'string',
    );
    const key = keys[Math.floor(random() * keys.length)]!;
    return { [key]: off((dims as Record<string, { value: string }>)[key]!) };
  };
  const small = (): unknown => ({ value: `${between(random, -0.03, 0.03).toFixed(5)} mm`, from: 'measured' });
  const own: unknown[] = [];
  const weighted = a.crank['weighted'] as { throw: number; side: string }[] | undefined;
  for (let t = 1; t <= throws; t++) {
    for (const side of ['front', 'rear']) {
      if (weighted !== undefined && !weighted.some((w) => w.throw === t && w.side === side)) continue;
      const how = random();
      const entry = { body: 'counterweight', throw: t, side };
      if (how < 0.3) own.push({ ...entry, set: one(a.crank['counterweight'] as object) });
      else if (how < 0.4) own.push({ ...entry, axialShift: small() });
      else if (how < 0.5)
        own.push({ ...entry, phase: { value: `${between(random, -5, 5).toFixed(3)} deg`, from: 'measured' } });
    }
  }
  for (let c = 1; c <= cylinders; c++) {
    const how = random();
    if (how < 0.35) own.push({ body: 'rod', cylinder: c, set: one(a.rod) });
    else if (how < 0.4) own.push({ body: 'rod', cylinder: c, axialShift: small() });
    if (random() < 0.35) own.push({ body: 'piston', cylinder: c, set: one(a.piston) });
    if (a.camshaft === undefined || random() > 0.4) continue;
    const valve = random() < 0.5 ? 'intake' : 'exhaust';
    const cam = a.camshaft as Record<string, { value: string }>;
    const entry = { body: 'lobe', cylinder: c, valve };
    const kind = random();
    if (kind < 0.35) own.push({ ...entry, lift: off(cam[`${valve}Lift`]!) });
    else if (kind < 0.7) own.push({ ...entry, duration: off(cam[`${valve}Duration`]!) });
    else own.push({ ...entry, axialShift: small() });
  }
  if (own.length > 0) a.own = own;
  return copy;
}
