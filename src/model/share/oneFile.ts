/** Writes a build into the page that opens from disk, so that nothing in it can be taken for markup. */
import { type BuildDocument, formatBuild } from '../../build/index.ts';

const PLACE = '<script type="application/json" id="build"></script>';

/** The build file's text without a character that could end or begin a tag; as JSON it says the same. */
export function buildText(doc: BuildDocument): string {
  const code = (c: string): string => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
  return formatBuild(doc).replace(/[<>&\u2028\u2029]/g, code);
}

/** The page with the build in its place; null where the page has no such place, or has it twice. */
export function withBuild(page: string, text: string): string | null {
  const parts = page.split(PLACE);
  if (parts.length !== 2) return null;
  return `${parts[0]}${PLACE.replace('></', () => `>${text}</`)}${parts[1]}`;
}
