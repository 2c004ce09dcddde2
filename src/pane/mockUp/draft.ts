/** What has been typed into the form of a measurement, as an entry of the log; and back. */
import type { MockUpEntry } from '../../build/document.ts';
import { type LengthUnit, parseLength } from '../../build/literal.ts';

export interface Draft {
  readonly between: readonly [string, string];
  /** Null: the smallest found while turning. `afterTdc` as typed, degrees. */
  readonly at: { readonly cylinder: number; readonly afterTdc: string } | null;
  readonly reading: string;
  /** As typed; empty: none stated. */
  readonly within: string;
  readonly unit: LengthUnit;
  readonly with: string;
  readonly date: string;
  readonly note: string;
}

/** The entry as it would stand in the file; what can't be read is left for the rules to refuse, as it was typed. */
export function entryOf(draft: Draft, assembly: string): MockUpEntry {
  const { between, at, date } = draft;
  const within = draft.within.trim().replace(/^(±|\+\/-)\s*/, '');
  const note = draft.note.trim();
  return {
    assembly,
    between,
    ...(at === null ? {} : { at: { cylinder: at.cylinder, afterTdc: inDegrees(at.afterTdc) } }),
    measured: withUnit(`${draft.reading.trim()}${within === '' ? '' : ` ±${within}`}`, draft.unit),
    with: draft.with.trim(),
    date,
    ...(note === '' ? {} : { note }),
  };
}

/** A unit typed with the figure counts; else the one chosen. */
function withUnit(typed: string, unit: LengthUnit): string {
  return /(in|thou|mm|")$/.test(typed) ? typed : `${typed} ${unit}`;
}

function inDegrees(typed: string): string {
  const text = typed.trim().replace(/^[−–]/, '-');
  return /(deg|°)$/.test(text) ? text : `${text} deg`;
}

/** The draft that makes this entry again. */
export function draftOf(entry: MockUpEntry): Draft {
  const read = parseLength(entry.measured);
  const [, reading = '', within = ''] = /^(.*?)(?: *(?:±|\+\/-) *(.*?))? *(?:in|thou|mm|")$/.exec(entry.measured) ?? [];
  const plain = reading !== '' && !/\+.*-/.test(reading);
  return {
    between: entry.between,
    at:
      entry.at === undefined
        ? null
        : { cylinder: entry.at.cylinder, afterTdc: entry.at.afterTdc.replace(/ *(deg|°)$/, '') },
    // Two-sided tolerances stay in the reading, unit and all.
    reading: plain ? reading : entry.measured,
    within: plain ? within : '',
    unit: read.ok ? read.unit : 'mm',
    with: entry.with,
    date: entry.date,
    note: entry.note ?? '',
  };
}
