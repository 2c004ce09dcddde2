/**
 * Outlines as an ASCII drawing interchange file of Release 12: one closed POLYLINE each, arcs exact as bulges, on a layer of its own.
 *
 * Source: "Drawing Interchange and File Formats", Release 12 (1992). That release has no place for the unit, so it stands in
 * a remark (999) at the top: who reads the file has to be told. The origin is a POINT on a layer of its own. Arcs over
 * 175 degrees are divided. Coordinates to a billionth of the unit, bulges to 14 decimals.
 */
import { asSeen, CRANK_CENTRE, type NamedOutline, type Rotation, requireDrawable, type SeenFrom } from './front.ts';
import { type FileUnit, UNIT_MM } from './units.ts';
import { type Vertex, verticesOf } from './vertices.ts';

export interface DxfWriting {
  readonly unit: FileUnit;
  /** Sense of crank rotation of the build. */
  readonly rotation: Rotation;
  /** Left out: front. */
  readonly seenFrom?: SeenFrom;
  /** What lies at the origin: the crank centre unless told otherwise. */
  readonly origin?: string;
}

/** Characters of a layer name, Release 12. */
const LONGEST_LAYER = 31;
const PLACES = 9;
const BULGE_PLACES = 14;

/** Lines end with CR LF. Throws RangeError if there is nothing to write or a number is not finite. */
export function writeOutlineDxf(outlines: readonly NamedOutline[], options: DxfWriting): string {
  requireDrawable(outlines);
  const size = UNIT_MM[options.unit];
  const centre = plainLayer(options.origin ?? CRANK_CENTRE);
  const layers = layerNames(
    outlines.map((o) => o.name),
    centre,
  );
  const chains = outlines.map((o) =>
    verticesOf(asSeen(o.outline, options.rotation, options.seenFrom)).map((v) => ({
      ...v,
      x: v.x / size,
      y: v.y / size,
    })),
  );
  const groups: (readonly [number, string | number])[] = [
    [
      999,
      `Lengths in ${options.unit === 'mm' ? 'millimetres' : 'inches'}. As seen from the ${options.seenFrom ?? 'front'}. Verify on the part.`,
    ],
    ...section('HEADER', [
      [9, '$ACADVER'],
      [1, 'AC1009'],
    ]),
    ...section('TABLES', layerTable([...layers, centre])),
    ...section('ENTITIES', [
      ...chains.flatMap((vertices, k) => polyline(vertices, layers[k]!)),
      ...entity('POINT', centre),
      ...place(0, 0),
    ]),
    [0, 'EOF'],
  ];
  return groups.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join('');
}

/**
 * Layer of each name, in order: capitals, digits, - and _ as Release 12 allows, everything else replaced by _, at most 31
 * characters, none twice and none that of the origin.
 */
export function layerNames(names: readonly string[], origin = plainLayer(CRANK_CENTRE)): string[] {
  const taken = new Set([origin]);
  return names.map((name) => {
    const plain = plainLayer(name);
    let layer = plain;
    for (let k = 2; taken.has(layer); k++) layer = `${plain.slice(0, LONGEST_LAYER - 1 - String(k).length)}_${k}`;
    taken.add(layer);
    return layer;
  });
}

function plainLayer(name: string): string {
  const plain = name.toUpperCase().replace(/[^A-Z0-9_-]+/g, '_');
  return plain.slice(0, LONGEST_LAYER) || 'OUTLINE';
}

type Groups = (readonly [number, string | number])[];

function section(name: string, groups: Groups): Groups {
  return [[0, 'SECTION'], [2, name], ...groups, [0, 'ENDSEC']];
}

function layerTable(layers: readonly string[]): Groups {
  const lineType: Groups = [
    [0, 'TABLE'],
    [2, 'LTYPE'],
    [70, 1],
    [0, 'LTYPE'],
    [2, 'CONTINUOUS'],
    [70, 0],
    [3, 'Solid line'],
    [72, 65],
    [73, 0],
    [40, '0.0'],
    [0, 'ENDTAB'],
  ];
  const each = layers.flatMap(
    (name): Groups => [
      [0, 'LAYER'],
      [2, name],
      [70, 0],
      [62, 7],
      [6, 'CONTINUOUS'],
    ],
  );
  return [...lineType, [0, 'TABLE'], [2, 'LAYER'], [70, layers.length], ...each, [0, 'ENDTAB']];
}

function polyline(vertices: readonly Vertex[], layer: string): Groups {
  return [
    ...entity('POLYLINE', layer),
    [66, 1],
    ...place(0, 0),
    [70, 1],
    ...vertices.flatMap(
      (v): Groups => [
        ...entity('VERTEX', layer),
        ...place(v.x, v.y),
        ...(v.bulge === 0 ? [] : [[42, decimal(v.bulge, BULGE_PLACES)] as const]),
      ],
    ),
    ...entity('SEQEND', layer),
  ];
}

function entity(kind: string, layer: string): Groups {
  return [
    [0, kind],
    [8, layer],
  ];
}

function place(x: number, y: number): Groups {
  return [
    [10, decimal(x, PLACES)],
    [20, decimal(y, PLACES)],
    [30, '0.0'],
  ];
}

/** At least one decimal, none but zeros to spare, no minus before zero. */
function decimal(value: number, places: number): string {
  const digits = value.toFixed(places).replace(/(\.\d+?)0+$/, '$1');
  return /[1-9]/.test(digits) ? digits : '0.0';
}
