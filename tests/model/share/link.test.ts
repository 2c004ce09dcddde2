/** A build goes into a link and comes out the same; what is damaged, foreign or too large is refused. */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatBuild, readContent } from '../../../src/build/index.ts';
import { buildOfLink, checkSum, isBuildLink, linkOf } from '../../../src/model/share/link.ts';
import { changed } from '../../support/changed.ts';
import { exampleInline6, exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';

/** A link made by hand: packed by zlib, lettered by Buffer. */
function byHand(text: string, sum = checkSum(new TextEncoder().encode(text))): string {
  return `build-1.${deflateRawSync(text).toString('base64url')}.${sum}`;
}

async function reason(link: string): Promise<string> {
  const read = await buildOfLink(link);
  if (read.ok) throw new Error('it was read');
  return read.problems[0]!.allowed;
}

describe('the link of a build', () => {
  it('has the check sum of RFC 1952: CBF43926 of "123456789" (the check value of CRC-32/ISO-HDLC)', () => {
    expect(checkSum(new TextEncoder().encode('123456789'))).toBe('cbf43926');
  });

  for (const [name, doc] of [
    ['V8', exampleV8()],
    ['inline six', exampleInline6()],
    ['single', exampleSingle()],
  ] as const)
    it(`gives back the ${name}, to the last character of its file, and fits an address`, async () => {
      const link = await linkOf(doc);
      expect(link).toMatch(/^build-1\.[A-Za-z0-9_-]+\.[0-9a-f]{8}$/);
      expect(isBuildLink(`#${link}`)).toBe(true);
      const read = await buildOfLink(`#${link}`);
      expect(read.ok && read.doc).toEqual(doc);
      expect(read.ok && formatBuild(read.doc)).toBe(formatBuild(doc));
      // zlib unpacks it too.
      expect(inflateRawSync(Buffer.from(link.split('.')[1]!, 'base64url')).toString()).toBe(formatBuild(doc));
    });

  it('carries names of any letters', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }), async (name) => {
        const doc = changed(exampleSingle(), { name: `a${name}b` }) as unknown as ReturnType<typeof exampleSingle>;
        fc.pre(readContent(doc).ok);
        const read = await buildOfLink(await linkOf(doc));
        expect(read.ok && formatBuild(read.doc)).toBe(formatBuild(doc));
      }),
      { numRuns: 40 },
    );
  });

  it('damaged anywhere is refused, never half read', async () => {
    const link = await linkOf(exampleSingle());
    await fc.assert(
      fc.asyncProperty(fc.nat(link.length - 1), fc.constantFrom('A', 'z', '-', '.', '%', ''), async (at, letter) => {
        const spoilt = link.slice(0, at) + letter + link.slice(at + 1);
        if (spoilt === link) return;
        const read = await buildOfLink(spoilt);
        expect(read.ok).toBe(false);
        if (!read.ok)
          expect(read.problems[0]).toMatchObject({ rule: 'link of a build', allowed: expect.stringMatching(/\.$/) });
      }),
      { numRuns: 300 },
    );
  });

  it('says what is wrong: cut short, of a later version, of another program, unpacking without end', async () => {
    const link = await linkOf(exampleSingle());
    expect(await reason(link.slice(0, -20))).toContain('Copy the whole link');
    expect(await reason(link.replace('build-1', 'build-2'))).toContain('later version');
    expect(await reason('build-1')).toContain('three parts');
    expect(await reason('')).toContain('begins with build-1');
    expect(await reason(byHand('{}', '00000000'))).toContain('check sum');
    // 40 MB of blanks pack into 40 kB.
    expect(await reason(byHand(' '.repeat(40_000_000), '00000000'))).toContain('larger than 8 MB');
    expect(isBuildLink('#glossary')).toBe(false);
    // A damaged mark is refused aloud too.
    const spoilt = link.replace('build-1', 'buidl-1');
    expect(isBuildLink(`#${spoilt}`)).toBe(true);
    expect(await reason(spoilt)).toContain('begins with build-1');
  });

  it('with a whole text that is no build is refused by the rules of the file', async () => {
    const read = await buildOfLink(byHand('{"version": 99}'));
    expect(read.ok).toBe(false);
  });
});
