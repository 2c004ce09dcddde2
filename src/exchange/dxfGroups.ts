/**
 * The groups of an ASCII drawing interchange file: pairs of lines, a code and a value, and the entities and units in them.
 *
 * Source: "Drawing Interchange and File Formats", Release 12 (1992), "ASCII DXF files": sections begin with 0 SECTION
 * and 2 NAME and end with 0 ENDSEC, the file ends with 0 EOF, 999 is a remark. $INSUNITS is of a later release.
 */
import { type Refused, refused } from './units.ts';

export const MOST_DXF_CHARACTERS = 16_000_000;

export interface Group {
  readonly code: number;
  readonly value: string;
  /** Line of the value, counted from 1. */
  readonly line: number;
}

/** An entity: its kind, and the groups up to the next one. */
export interface Entity {
  readonly kind: string;
  readonly line: number;
  readonly layer: string;
  readonly groups: readonly Group[];
}

export interface DxfContent {
  readonly ok: true;
  readonly entities: readonly Entity[];
  /** Value of $INSUNITS, if the header has one. */
  readonly insUnits: Group | undefined;
}

/** Never throws. */
export function readDxfGroups(text: string): DxfContent | Refused {
  if (text.length > MOST_DXF_CHARACTERS) {
    return refused(0, '', `The file has more than ${MOST_DXF_CHARACTERS} characters.`);
  }
  if (text.includes('\u0000'))
    return refused(0, '', 'This is a binary file. Allowed: ASCII DXF, as Release 12 writes it.');
  const groups = pairs(text);
  if (!Array.isArray(groups)) return groups;

  const entities: Entity[] = [];
  let insUnits: Group | undefined;
  let section: string | undefined;
  let seenEntities = false;
  for (let k = 0; k < groups.length; k++) {
    const group = groups[k]!;
    if (group.code === 0 && group.value === 'SECTION') {
      if (section !== undefined) return refused(group.line, group.value, `Section ${section} is not ended.`);
      const name = groups[k + 1];
      if (name?.code !== 2) return refused(group.line, group.value, 'A section has no name.');
      section = name.value;
      if (section === 'ENTITIES') seenEntities = true;
      k++;
    } else if (group.code === 0 && group.value === 'ENDSEC') {
      section = undefined;
    } else if (group.code === 0 && group.value === 'EOF') {
      if (section !== undefined) return refused(group.line, group.value, `Section ${section} is not ended.`);
      if (!seenEntities) return refused(0, '', 'The file has no section of entities.');
      return { ok: true, entities, insUnits };
    } else if (section === 'HEADER' && group.code === 9 && group.value === '$INSUNITS') {
      insUnits = groups[k + 1];
    } else if (section === 'ENTITIES' && group.code === 0) {
      let end = k + 1;
      while (end < groups.length && groups[end]!.code !== 0) end++;
      const own = groups.slice(k + 1, end);
      const layer = own.find((g) => g.code === 8)?.value ?? '0';
      entities.push({ kind: group.value, line: group.line, layer, groups: own });
      k = end - 1;
    }
  }
  return refused(0, '', 'The file does not end with EOF: it is no DXF file, or a part of one.');
}

function pairs(text: string): Group[] | Refused {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const groups: Group[] = [];
  for (let k = 0; k < lines.length; k += 2) {
    const code = lines[k]!.trim();
    // Blank lines after the last pair.
    if (code === '' && lines.slice(k).every((line) => line.trim() === '')) break;
    if (!/^-?\d{1,4}$/.test(code)) {
      return refused(k + 1, code, 'Allowed here: a group code, a whole number. Is this an ASCII DXF file?');
    }
    if (k + 1 >= lines.length) return refused(k + 1, code, 'A group code without a value.');
    if (code === '999') continue;
    groups.push({ code: Number(code), value: lines[k + 1]!.trim(), line: k + 2 });
  }
  return groups;
}
