/**
 * A build as the part of an address behind `#`: a browser never sends it to anybody. The text of the build file, deflated (RFC
 * 1951), in the letters of RFC 4648 section 5, behind a mark of the form and before a check sum (CRC-32 of RFC 1952).
 */
import { type BuildDocument, formatBuild, type ParsedBuild, type Problem, parseBuild } from '../../build/index.ts';

const MARK = 'build-1';
/** A build with a hundred measured outlines is a few hundred kilobytes; no more is unpacked, bytes. */
const LARGEST_BYTES = 8_000_000;
/** And no longer a link is read, characters. */
const LONGEST = 2_000_000;

/** "build-1.<packed>.<check sum>", without the `#`. */
export async function linkOf(doc: BuildDocument): Promise<string> {
  const bytes = new TextEncoder().encode(formatBuild(doc));
  const packed = await through(bytes, new CompressionStream('deflate-raw'), Number.POSITIVE_INFINITY);
  return `${MARK}.${toLetters(packed!)}.${checkSum(bytes)}`;
}

/** Whether the end of an address means to be a build at all: by its mark, or where that was damaged by its long row of letters. */
export function isBuildLink(fragment: string): boolean {
  return /^#?build-/.test(fragment) || /[A-Za-z0-9_-]{80}/.test(fragment);
}

/** The build of a link, or why it can't be read; nothing else happens. */
export async function buildOfLink(fragment: string): Promise<ParsedBuild> {
  const text = fragment.replace(/^#/, '');
  if (text.length > LONGEST) return refused(`${text.length} characters`, `A link has at most ${LONGEST} characters.`);
  const [mark, letters, sum, ...more] = text.split('.');
  if (mark !== MARK)
    return refused(short(mark ?? ''), `It begins with ${MARK}. A link of a later version needs a later program.`);
  if (letters === undefined || sum === undefined || more.length > 0 || !/^[0-9a-f]{8}$/.test(sum))
    return refused(
      short(text),
      'It has three parts with points between them; something was added, or the end or the middle is missing. Copy the whole link.',
    );
  const packed = fromLetters(letters);
  if (packed === null)
    return refused(short(letters), 'Letters, digits, “-” and “_” only. Something was added or changed.');
  let bytes: Uint8Array<ArrayBuffer> | null;
  try {
    bytes = await through(packed, new DecompressionStream('deflate-raw'), LARGEST_BYTES);
  } catch {
    return refused(short(letters), 'It can’t be unpacked: a part is missing or changed. Copy the whole link.');
  }
  if (bytes === null) return refused(short(letters), `Unpacked it is larger than ${LARGEST_BYTES / 1e6} MB.`);
  if (checkSum(bytes) !== sum) return refused(short(letters), 'The check sum is not its own: a part was changed.');
  return parseBuild(new TextDecoder().decode(bytes));
}

function refused(value: string, allowed: string): ParsedBuild {
  const problem: Problem = { place: 'The link', value, rule: 'link of a build', allowed };
  return { ok: false, problems: [problem] };
}

function short(text: string): string {
  return text.length <= 24 ? text : `${text.slice(0, 24)}…`;
}

/** All that comes out of a stream; null when it is more than `most` bytes. */
async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
  most: number,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > most) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
  const out = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

function toLetters(bytes: Uint8Array): string {
  let text = '';
  for (let k = 0; k < bytes.length; k += 0x8000) text += String.fromCharCode(...bytes.subarray(k, k + 0x8000));
  return btoa(text).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

function fromLetters(letters: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[A-Za-z0-9_-]+$/.test(letters) || letters.length % 4 === 1) return null;
  const text = atob(letters.replace(/-/g, '+').replace(/_/g, '/'));
  const bytes = Uint8Array.from(text, (c) => c.charCodeAt(0));
  // The last letter has bits to spare; set ones would be a change that nothing else sees (RFC 4648, section 3.5).
  return toLetters(bytes) === letters ? bytes : null;
}

/** CRC-32 as RFC 1952 has it, section 8; eight hexadecimal digits. */
export function checkSum(bytes: Uint8Array): string {
  let c = 0xffffffff;
  for (const byte of bytes) {
    c ^= byte;
    for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
  }
  return ((c ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}
