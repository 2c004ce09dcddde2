/** What DEVELOPERS.md and README.md say about the code, held against the code. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LAYOUT_NAMES, RULES } from '../src/build/index.ts';

const ROOT = join(import.meta.dirname, '..');
const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

const developers = read('DEVELOPERS.md');
const readme = read('README.md');

/** Rows of the table whose heading begins with these titles, as cells. */
function table(text: string, ...titles: readonly string[]): string[][] {
  const lines = text.split('\n');
  const start = lines.findIndex((line) => line.startsWith(`| ${titles.join(' | ')}`));
  expect(start, titles.join(' | ')).toBeGreaterThanOrEqual(0);
  const end = lines.findIndex((line, k) => k > start && !line.startsWith('|'));
  return lines.slice(start + 2, end).map((line) =>
    line
      .slice(1, -1)
      .split(/(?<!\\)\|/)
      .map((cell) => cell.trim().replaceAll('\\|', '|')),
  );
}

describe('DEVELOPERS.md', () => {
  it('has every rule, in the order of judging, with what is allowed and why (scripts/writeRules.ts writes them)', () => {
    expect(table(developers, 'rule', 'what is allowed', 'why')).toEqual(RULES.map((r) => [r.name, r.what, r.why]));
  });

  it('gives each package a reason, and names no other', () => {
    const manifest = JSON.parse(read('package.json')) as Record<'dependencies' | 'devDependencies', object>;
    const named = (rows: readonly string[][]): string[] => rows.flatMap(([names]) => names!.split(', ')).sort();
    expect(named(table(developers, 'package', 'reason'))).toEqual(Object.keys(manifest.dependencies).sort());
    expect(named(table(developers, 'for development', 'reason'))).toEqual(Object.keys(manifest.devDependencies).sort());
  });

  it('names every folder of src', () => {
    const folders = readdirSync(join(ROOT, 'src')).flatMap((folder) =>
      folder === 'core' ? readdirSync(join(ROOT, 'src/core')).map((inner) => `core/${inner}`) : [folder],
    );
    const named = table(developers, 'folder', 'question it answers').map(([name]) => name);
    expect(folders.filter((folder) => !named.includes(`\`src/${folder}\``))).toEqual([]);
  });

  it('names only files and scripts that exist', () => {
    // What a failing comparison of pictures leaves behind is not there before.
    const files = [...developers.matchAll(/`((?:src|tests|assets|scripts)\/[\w/.-]+)`/g)]
      .map((m) => m[1]!)
      .filter((file) => file !== 'tests/output');
    const inSrc = [...developers.matchAll(/`((?:app|cli|pane|view|model|assembly|build|core)\/[\w/.-]+)`/g)];
    expect(files.length + inSrc.length).toBeGreaterThan(30);
    for (const file of [...files, ...inSrc.map((m) => `src/${m[1]}`)]) {
      expect(existsSync(join(ROOT, file)), file).toBe(true);
    }
    const { scripts } = JSON.parse(read('package.json')) as { scripts: object };
    for (const m of `${developers}${readme}`.matchAll(/npm run (?:--silent )?(\w+)/g)) {
      expect(Object.keys(scripts)).toContain(m[1]);
    }
  });
});

describe('README.md', () => {
  it('names every layout, every demo and only files that exist', () => {
    expect(LAYOUT_NAMES.filter((name) => !readme.includes(name))).toEqual([]);
    const demos = readdirSync(join(ROOT, 'assets/demos'));
    expect(table(readme, 'file', 'what it shows').map(([file]) => file)).toEqual(expect.arrayContaining(demos));
    expect(demos.filter((demo) => !readme.includes(`?demo=${demo.replace('.json', '')}`))).toEqual([]);
    for (const m of readme.matchAll(/\]\(([^)#]+)(#[^)]*)?\)/g))
      expect(existsSync(join(ROOT, m[1]!)), m[1]!).toBe(true);
  });

  it('leads to headings that exist', () => {
    const anchors = [...developers.matchAll(/^#+ (.+)$/gm)].map((m) => m[1]!.toLowerCase().replaceAll(' ', '-'));
    for (const m of readme.matchAll(/\(DEVELOPERS\.md#([^)]+)\)/g)) expect(anchors).toContain(m[1]);
  });
});
