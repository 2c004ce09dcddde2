/**
 * What is kept of the lessons on this machine: for each one the predictions made, as they were shown, and how many rounds are behind. Nothing
 * else; the page shows all of it. Where nothing can be kept it lasts until the page is closed.
 */

export interface KeptLesson {
  /** Predictions in order of rounds, as they were shown. */
  readonly said: readonly string[];
  readonly finished: boolean;
}

export type Kept = Readonly<Record<string, KeptLesson>>;

/** Where the text is kept: the page hands the browser's own in. Either may throw. */
export interface Slot {
  readonly read: () => string | null;
  readonly write: (text: string | null) => void;
}

export interface Progress {
  readonly kept: () => Kept;
  /** False when the browser would not keep it: then it lasts until the page is closed. */
  readonly lasting: () => boolean;
  readonly put: (key: string, lesson: KeptLesson) => void;
  readonly forget: () => void;
}

/** Longest text of a prediction kept; what is shown is far shorter. */
const LONGEST = 200;
const MOST_ROUNDS = 12;
const MOST_LESSONS = 200;

export function progressIn(slot: Slot): Progress {
  let lasting = true;
  let kept: Kept = {};
  try {
    kept = readKept(slot.read());
  } catch {
    lasting = false;
  }
  const write = (text: string | null): void => {
    try {
      slot.write(text);
    } catch {
      lasting = false;
    }
  };
  return {
    kept: () => kept,
    lasting: () => lasting,
    put: (key, lesson) => {
      kept = { ...kept, [key]: lesson };
      write(JSON.stringify({ version: 1, lessons: kept }));
    },
    forget: () => {
      kept = {};
      write(null);
    },
  };
}

/** What can be read of what was kept; anything else counts as nothing. */
function readKept(text: string | null): Kept {
  let content: unknown;
  try {
    content = JSON.parse(text ?? 'null');
  } catch {
    return {};
  }
  const lessons = isRecord(content) && content['version'] === 1 ? content['lessons'] : null;
  if (!isRecord(lessons)) return {};
  const entries = Object.entries(lessons).flatMap(([key, lesson]): [string, KeptLesson][] => {
    if (!/^[a-z0-9-]{1,60}$/.test(key) || !isRecord(lesson) || !Array.isArray(lesson['said'])) return [];
    const said = lesson['said']
      .slice(0, MOST_ROUNDS)
      .flatMap((s) => (typeof s === 'string' ? [s.slice(0, LONGEST)] : []));
    return [[key, { said, finished: lesson['finished'] === true }]];
  });
  return Object.fromEntries(entries.slice(0, MOST_LESSONS));
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
