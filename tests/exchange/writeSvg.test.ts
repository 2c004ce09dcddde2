/**
 * The printed template, read back by a small reader of this test: paths after SVG 1.1, section 8.3, arcs from end points to
 * centre after its appendix F.6.5.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrapped } from '../../src/exchange/svgText.ts';
import { TEMPLATE_CAUTION, writeOutlineSvg } from '../../src/exchange/writeSvg.ts';
import { type Edge, nearestOn, pointOf, shape, type XY } from '../oracle/plane.ts';
import { anyOutline, between, box, disc, seeded } from '../oracle/random.ts';

const SHEET = { title: 'Counterweight 1 front', date: '2 March', rotation: 'clockwise' } as const;

interface Node {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  text: string;
  readonly children: Node[];
}

/** XML without namespaces, comments or CDATA; throws on anything not well formed. */
function parseXml(text: string): Node {
  const unescaped = (s: string) => {
    if (/[<>]|&(?!(?:amp|lt|gt|quot|#39);)/.test(s)) throw new Error(`not escaped: ${s}`);
    const named: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
    return s.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => named[name]!);
  };
  const body = text.replace(/^<\?xml version="1.0" encoding="UTF-8"\?>\n/, '');
  const root: Node = { tag: '', attributes: {}, text: '', children: [] };
  const open = [root];
  const token = /<(\/?)([a-z]+)((?:\s+[a-zA-Z-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
  while (token.lastIndex < body.length) {
    const [, end, tag, attributes, alone, letters] = token.exec(body) ?? [];
    if (letters !== undefined) open.at(-1)!.text += unescaped(letters);
    else if (tag === undefined) throw new Error('no tag');
    else if (end === '/') {
      if (open.pop()!.tag !== tag) throw new Error(`${tag} is not open`);
    } else {
      const pairs = [...attributes!.matchAll(/([a-zA-Z-]+)="([^"]*)"/g)].map((m) => [m[1]!, unescaped(m[2]!)]);
      const node: Node = { tag, attributes: Object.fromEntries(pairs), text: '', children: [] };
      open.at(-1)!.children.push(node);
      if (alone !== '/') open.push(node);
    }
  }
  if (open.length !== 1 || root.children.length !== 1) throw new Error('not one root');
  return root.children[0]!;
}

const all = (node: Node, tag: string): Node[] => [
  ...(node.tag === tag ? [node] : []),
  ...node.children.flatMap((c) => all(c, tag)),
];

/** Edges of a path of M, L, A and Z, in the coordinates of the sheet. */
function pathEdges(d: string): Edge[] {
  const tokens = d.match(/[A-Za-z]|-?[\d.]+/g)!;
  const edges: Edge[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  let k = 0;
  const next = () => {
    const value = Number(tokens[k++]);
    if (!Number.isFinite(value)) throw new Error(`no number: ${tokens[k - 1]}`);
    return value;
  };
  const lineTo = (x1: number, y1: number) => {
    if (Math.hypot(x1 - x, y1 - y) > 1e-6) edges.push({ kind: 'line', x0: x, y0: y, x1, y1 });
    [x, y] = [x1, y1];
  };
  while (k < tokens.length) {
    const command = tokens[k++]!;
    if (command === 'M') [x, y, startX, startY] = ((a, b) => [a, b, a, b])(next(), next());
    else if (command === 'L') lineTo(next(), next());
    else if (command === 'Z') lineTo(startX, startY);
    else if (command === 'A') {
      const [rx, ry, tilt, large, sweep, x1, y1] = [next(), next(), next(), next(), next(), next(), next()];
      expect([rx, tilt]).toEqual([ry, 0]);
      edges.push(arcEdge(x, y, rx, large === 1, sweep === 1, x1, y1));
      [x, y] = [x1, y1];
    } else throw new Error(`command ${command}`);
  }
  return edges;
}

/** SVG 1.1, F.6.5, for equal radii and no rotation; angles of the sheet, growing clockwise as seen. */
function arcEdge(x1: number, y1: number, r: number, large: boolean, sweep: boolean, x2: number, y2: number): Edge {
  const [px, py] = [(x1 - x2) / 2, (y1 - y2) / 2];
  const root = Math.sqrt(Math.max(0, (r * r) / (px * px + py * py) - 1)) * (large !== sweep ? 1 : -1);
  const [cx, cy] = [root * py + (x1 + x2) / 2, -root * px + (y1 + y2) / 2];
  const startRad = Math.atan2(y1 - cy, x1 - cx);
  let sweepRad = Math.atan2(y2 - cy, x2 - cx) - startRad;
  if (sweep && sweepRad < 0) sweepRad += 2 * Math.PI;
  if (!sweep && sweepRad > 0) sweepRad -= 2 * Math.PI;
  return { kind: 'arc', cx, cy, r: Math.hypot(x1 - cx, y1 - cy), startRad, sweepRad };
}

/** The sheet's edges in the frame of the part: origin at the cross, y up. */
function readSheet(svg: string) {
  const root = parseXml(svg);
  const cross = all(root, 'path').find((p) => p.attributes['id'] === 'crank-centre')!;
  const [, left, y, width, x] = /^M([-\d.]+) ([-\d.]+)h([-\d.]+) M([-\d.]+)/.exec(cross.attributes['d']!)!.map(Number);
  expect(x).toBeCloseTo(left! + width! / 2, 9);
  const shapes = all(root, 'path').filter((p) => p.children.some((c) => c.tag === 'title'));
  const outlines = shapes.map((p) =>
    pathEdges(p.attributes['d']!).map((e): Edge => {
      if (e.kind === 'line') return { kind: 'line', x0: e.x0 - x!, y0: y! - e.y0, x1: e.x1 - x!, y1: y! - e.y1 };
      return { ...e, cx: e.cx - x!, cy: y! - e.cy, startRad: -e.startRad, sweepRad: -e.sweepRad };
    }),
  );
  return { root, outlines, names: shapes.map((p) => p.children[0]!.text), origin: [x!, y!] as XY };
}

function stray(from: readonly Edge[], to: readonly Edge[]): number {
  const s = shape(to);
  return Math.max(
    ...from.flatMap((e) =>
      Array.from({ length: 21 }, (_, k) => {
        const [x, y] = pointOf(e, k / 20);
        const [nx, ny] = nearestOn(s, x, y);
        return Math.hypot(nx - x, ny - y);
      }),
    ),
  );
}

describe('the template', () => {
  it('holds the outlines at full size, arcs and all, the right way up', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e9 }), fc.integer({ min: 0, max: 2 }), (seed, more) => {
        const random = seeded(seed);
        const outlines = Array.from({ length: more + 1 }, (_, k) => ({
          name: `part ${k}`,
          outline: { pieces: anyOutline(random, between(random, 10, 120)) },
        }));
        const sheet = readSheet(writeOutlineSvg(outlines, SHEET));
        expect(sheet.names).toEqual(outlines.map((o) => o.name));
        outlines.forEach(({ outline }, k) => {
          expect(stray(outline.pieces, sheet.outlines[k]!)).toBeLessThan(0.001);
          expect(stray(sheet.outlines[k]!, outline.pieces)).toBeLessThan(0.001);
        });
      }),
      { seed: 55, numRuns: 60 },
    );
  });

  it('one unit is one millimetre, and everything lies on the sheet', () => {
    for (const edges of [disc(40, -30, 90), box(3, 4, 5, 300), disc(-200, 0, 15)]) {
      const { root, outlines, origin } = readSheet(writeOutlineSvg([{ name: 'a', outline: { pieces: edges } }], SHEET));
      const [w, h] = ['width', 'height'].map((a) => /^([\d.]+)mm$/.exec(root.attributes[a]!)![1]!);
      expect(root.attributes['viewBox']).toBe(`0 0 ${w} ${h}`);
      for (const e of outlines[0]!) {
        for (let k = 0; k <= 50; k++) {
          const [x, y] = pointOf(e, k / 50);
          expect(origin[0] + x).toBeGreaterThan(9.99);
          expect(origin[0] + x).toBeLessThan(Number(w) - 9.99);
          expect(origin[1] - y).toBeGreaterThan(9.99);
          expect(origin[1] - y).toBeLessThan(Number(h) - 9.99);
        }
      }
      for (const t of all(root, 'text')) expect(Number(t.attributes['y'])).toBeLessThan(Number(h) - 5);
    }
  });

  it('has both scale bars, the names, the date and the caution', () => {
    const outlines = [
      { name: 'as built', outline: { pieces: disc(0, 0, 80) } },
      { name: 'after grinding', outline: { pieces: disc(0, 0, 75) } },
    ];
    const svg = writeOutlineSvg(outlines, { ...SHEET, up: 'crankpin' });
    const root = parseXml(svg);
    const bars = all(root, 'path').map((p) => /^M[\d.]+ [\d.]+h([\d.]+) M/.exec(p.attributes['d']!)?.[1]);
    expect(bars).toContain('100');
    expect(bars).toContain('101.6');
    const words = all(root, 'text').map((t) => t.text);
    for (const said of ['100 mm', '4 in', 'as built', 'after grinding', '2 March', 'crankpin, up', SHEET.title]) {
      expect(words).toContain(said);
    }
    expect(words.join(' ')).toContain('verify on the part');
    expect(words.join(' ')).toContain(TEMPLATE_CAUTION);
    expect(words.join(' ')).toContain('turns clockwise');
    expect(svg).not.toMatch(/style=|<script|href|NaN|e-\d/);
  });

  it('an engine that turns the other way is drawn as seen from the front', () => {
    const outlines = [{ name: 'a', outline: { pieces: box(10, 0, 30, 20) } }];
    const sheet = readSheet(writeOutlineSvg(outlines, { ...SHEET, rotation: 'counterclockwise' }));
    expect(stray(sheet.outlines[0]!, box(-30, 0, -10, 20))).toBeLessThan(0.001);
  });

  it('hostile names stay text', () => {
    const hostile = [
      '</title></path><script>alert(1)</script>',
      '" onload="alert(1)',
      "' & < > &amp; ]]>",
      'a\u0000b\u001bc\ud800d\ufffee',
      '\u202Etxet desrever',
      'x'.repeat(5000),
      'line\nbreak\r\ttab',
      '\u{1F529} bolt',
      '',
    ];
    const outlines = hostile.map((name, k) => ({ name, outline: { pieces: disc(k, 0, 20) } }));
    for (const name of hostile) {
      const svg = writeOutlineSvg(outlines, { ...SHEET, title: name, date: name, up: name });
      const { root, names } = readSheet(svg);
      expect(all(root, 'script')).toHaveLength(0);
      expect(new Set(all(root, 'path').flatMap((p) => Object.keys(p.attributes))).has('onload')).toBe(false);
      expect(names[0]).toBe(hostile[0]);
      expect(names[1]).toBe(hostile[1]);
      expect(names[2]).toBe(hostile[2]);
      expect(names[6]).toBe('line break tab');
      expect(names[7]).toBe(hostile[7]);
      expect(svg).not.toMatch(/[\p{Cs}\uFFFE\uFFFF\u202E]/u);
      expect([...svg].every((c) => c === '\n' || c >= ' ')).toBe(true);
    }
  });

  it('any name at all leaves the sheet well formed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (name) => {
        parseXml(
          writeOutlineSvg([{ name, outline: { pieces: disc(0, 0, 20) } }], { ...SHEET, title: name, date: name }),
        );
      }),
      { seed: 56, numRuns: 300 },
    );
  });

  it('wraps at blanks where there are any', () => {
    expect(wrapped('one two three', 7)).toEqual(['one two', 'three']);
    expect(wrapped('abcdefghij k', 4)).toEqual(['abcd', 'efgh', 'ij k']);
    expect(wrapped('', 4)).toEqual(['']);
  });

  it('nothing, and numbers that are none, are not drawn', () => {
    expect(() => writeOutlineSvg([], SHEET)).toThrow(RangeError);
    const broken = { pieces: disc(0, Number.NaN, 1) };
    expect(() => writeOutlineSvg([{ name: 'a', outline: broken }], SHEET)).toThrow(RangeError);
  });
});
