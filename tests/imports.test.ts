/** Which folder of src may import which, read off the import lines; what core must not know; how long a file may be. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '..');

interface Import {
  readonly from: string;
  /** A path in the project, or a package. */
  readonly to: string;
  readonly typesOnly: boolean;
}

interface Rule {
  readonly code: readonly string[];
  readonly types?: readonly string[];
  readonly packages?: readonly string[];
  readonly packageTypes?: readonly string[];
}

/** By folder of src: folders (a longer path allows less) and packages it may import; its own folder always. */
const RULES: Readonly<Record<string, Rule>> = {
  app: { code: ['pane', 'view', 'model', 'exchange', 'build', 'core', 'assets'], types: ['assembly'] },
  cli: { code: ['model', 'assembly', 'exchange', 'build', 'core'], packages: ['node:fs', 'node:util'] },
  pane: {
    code: ['model', 'build', 'core/plane'],
    packages: ['tweakpane'],
    packageTypes: ['@tweakpane/core', 'decimal.js'],
  },
  view: {
    code: ['model', 'core'],
    types: ['assembly', 'build'],
    packages: ['pixi.js', 'pixi.js/unsafe-eval', 'mediabunny', 'gifenc', 'uplot'],
  },
  model: {
    code: ['assembly', 'exchange', 'build', 'core'],
    packages: [
      'clipper2-ts',
      'd3-contour',
      'pure-rand/distribution/uniformFloat64',
      'pure-rand/generator/xoroshiro128plus',
      'idb',
    ],
  },
  assembly: { code: ['build', 'core'] },
  exchange: { code: ['build', 'core'] },
  build: { code: ['core'], packages: ['zod', 'decimal.js'] },
  core: { code: [], packages: ['decimal.js'] },
};

const LONGEST = 300;

/** Longer files, and why each is still one question. */
const LONGER: Readonly<Record<string, string>> = {
  'src/pane/dimensionController.ts': 'one field of the pane: typing, stepping, dragging and its marks share one draft',
  'src/pane/pane.css': 'a style sheet, read by search',
  'src/view/style.css': 'a style sheet, read by search',
};

/** Not even those may grow beyond this; style sheets aside. */
const LONGEST_EXCEPTION = 400;

const everything = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
  .map((path) => `src/${path.replaceAll('\\', '/')}`)
  .sort();
const sources = everything.filter((path) => path.endsWith('.ts') && !path.endsWith('.d.ts'));

function read(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

/** Source with comments blanked out and, unless `strings`, texts too; line breaks kept. */
function bare(source: string, strings: boolean): string {
  const token = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"|`(?:\\.|[^`\\])*`/g;
  return source.replace(token, (found) =>
    found.startsWith('/') ? found.replace(/[^\n]/g, ' ') : strings ? found : `''${found.replace(/[^\n]/g, '')}`,
  );
}

function importsOf(path: string): Import[] {
  const text = bare(read(path), true);
  const found: Import[] = [];
  const add = (specifier: string, typesOnly: boolean): void => {
    const plain = specifier.replace(/\?.*$/, '');
    const to = plain.startsWith('.') ? relative(ROOT, join(ROOT, dirname(path), plain)).replaceAll('\\', '/') : plain;
    found.push({ from: path, to, typesOnly });
  };
  for (const m of text.matchAll(/^\s*(?:import|export)\b([^;'"]*?)\bfrom\s*['"]([^'"]+)['"]/gm)) {
    const clause = m[1]!.trim();
    const braces = /^\{([\s\S]*)\}$/.exec(clause)?.[1];
    const names = braces?.split(',').filter((n) => n.trim() !== '');
    add(m[2]!, clause.startsWith('type ') || (names?.every((n) => n.trim().startsWith('type ')) ?? false));
  }
  for (const m of text.matchAll(/^\s*import\s*['"]([^'"]+)['"]|\b(?:import|require)\(\s*['"]([^'"]+)['"]/gm)) {
    add(m[1] ?? m[2]!, false);
  }
  return found;
}

/** Why an import breaks the rule of its folder; null when it keeps it. */
function fault({ from, to, typesOnly }: Import): string | null {
  const folder = from.split('/')[1]!;
  const rule = RULES[folder];
  if (rule === undefined) return `${from} lies in src/${folder}, for which there is no rule`;
  const place = to.startsWith('src/') ? to.slice(4) : /^assets\/(demos\/|glossary\.json$)/.test(to) ? 'assets/' : null;
  const said = `${from} imports ${typesOnly ? 'types of ' : ''}${to}`;
  if (place === null) {
    const allowed = [...(rule.packages ?? []), ...(typesOnly ? (rule.packageTypes ?? []) : [])];
    return allowed.includes(to) ? null : said;
  }
  const allowed = [folder, ...rule.code, ...(typesOnly ? (rule.types ?? []) : [])];
  return allowed.some((each) => place.startsWith(`${each}/`)) ? null : said;
}

describe('imports', () => {
  const imports = sources.flatMap(importsOf);

  it('are found', () => {
    expect(sources.length).toBeGreaterThan(80);
    expect(imports.length).toBeGreaterThan(300);
    // As many as there are lines that begin or end one, counted without looking at what they say.
    const lines = sources.flatMap((path) => bare(read(path), true).split('\n'));
    expect(imports).toHaveLength(lines.filter((line) => /\bfrom '|^import '|\bimport\('/.test(line)).length);
  });

  it('point one way', () => {
    expect(imports.map(fault).filter((f) => f !== null)).toEqual([]);
  });

  it('name the file in full inside the project', () => {
    const inside = imports.filter((i) => i.to.startsWith('src/'));
    expect(inside.filter((i) => !/\.(ts|css)$/.test(i.to))).toEqual([]);
  });

  it('go round in no circle between folders', () => {
    const order = ['core', 'build', 'exchange', 'assembly', 'model', 'pane', 'view', 'cli', 'app'];
    expect(Object.keys(RULES).sort()).toEqual([...order].sort());
    for (const [folder, rule] of Object.entries(RULES)) {
      for (const to of [...rule.code, ...(rule.types ?? [])].map((each) => each.split('/')[0]!)) {
        if (to !== 'assets') expect(order.indexOf(to), `${folder} to ${to}`).toBeLessThan(order.indexOf(folder));
      }
    }
    expect(RULES['pane']!.code).not.toContain('view');
    expect(RULES['view']!.code).not.toContain('pane');
  });
});

describe('core, build, exchange and assembly', () => {
  const UNKNOWN = [
    'document',
    'window',
    'navigator',
    'globalThis',
    'self',
    'process',
    'console',
    'performance',
    'Date',
    'Intl',
    'fetch',
    'setTimeout',
    'setInterval',
    'requestAnimationFrame',
    'localStorage',
  ];

  it('know no page, no clock, no chance and no machine', () => {
    const name = new RegExp(`(?<![.\\w])(${UNKNOWN.join('|')})(?=\\s*[.(\\[])|\\bMath\\.random\\b|\\bnew Date\\b`);
    const found = sources
      .filter((path) => /^src\/(core|build|exchange|assembly)\//.test(path))
      .flatMap((path) => {
        const hit = name.exec(bare(read(path), false));
        return hit === null ? [] : [`${path}: ${hit[0]}`];
      });
    expect(found).toEqual([]);
  });
});

describe('files', () => {
  it(`have at most ${LONGEST} lines, a few named ones aside`, () => {
    const paths = [...sources, ...everything.filter((path) => path.endsWith('.css'))];
    const long = paths
      .map((path) => ({ path, lines: read(path).split('\n').length - 1 }))
      .filter(({ lines }) => lines > LONGEST);
    for (const { path, lines } of long) {
      if (LONGER[path] !== undefined) console.log(`${path}, ${lines} lines: ${LONGER[path]}.`);
    }
    expect(long.filter(({ path }) => LONGER[path] === undefined)).toEqual([]);
    expect(long.filter(({ path, lines }) => path.endsWith('.ts') && lines > LONGEST_EXCEPTION)).toEqual([]);
    for (const path of Object.keys(LONGER)) expect(paths).toContain(path);
  });
});
