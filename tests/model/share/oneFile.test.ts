/** A build written into a page is read from it again, whatever its names hold. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatBuild, readContent } from '../../../src/build/index.ts';
import { buildText, withBuild } from '../../../src/model/share/oneFile.ts';
import { changed } from '../../support/changed.ts';
import { exampleSingle } from '../../support/exampleBuild.ts';

const PAGE =
  '<html><body><script type="application/json" id="build"></script><script type="module">1</script></body></html>';

describe('a build in a page', () => {
  it('is the same JSON, and holds nothing that an HTML reader could take for a tag', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'grapheme', maxLength: 40 }),
          fc.constantFrom('</script><script>alert(1)</script>', '<!--', '$& $1 $`', '&lt;', '\u2028'),
        ),
        (name) => {
          const doc = changed(exampleSingle(), { name: `a${name}b` }) as unknown as ReturnType<typeof exampleSingle>;
          fc.pre(readContent(doc).ok);
          const page = withBuild(PAGE, buildText(doc))!;
          const inside = /id="build">([\s\S]*?)<\/script><script type="module">/.exec(page)![1]!;
          expect(inside).not.toMatch(/[<>&]/);
          expect(JSON.parse(inside)).toEqual(JSON.parse(formatBuild(doc)));
        },
      ),
    );
  });

  it('is not written into a page that has no place for it, or two', () => {
    expect(withBuild('<html></html>', '{}')).toBeNull();
    expect(withBuild(PAGE + PAGE, '{}')).toBeNull();
  });
});
