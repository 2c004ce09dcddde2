/** The command `sums`: reads a build file and prints the shop's sums of two assemblies side by side. */
import type { BuildDocument } from '../build/index.ts';
import { compared, sumsOf } from '../model/sums/index.ts';
import { readBuild } from './readBuild.ts';
import { readSumsOptions, SUMS_USAGE, type SumsOptions } from './sumsOptions.ts';
import { printedSums, reportedSums } from './sumsPrinted.ts';
import { plain } from './words.ts';

function refuse(sentences: readonly string[]): number {
  process.stderr.write(sentences.map((s) => `${plain(s)}\n`).join(''));
  return 2;
}

function run(args: readonly string[]): number {
  const options = readSumsOptions(args);
  if (options.kind === 'refused') return refuse([options.sentence]);
  if (options.kind === 'help') {
    process.stdout.write(SUMS_USAGE);
    return 0;
  }
  const read = readBuild(options.file);
  if (!read.ok) return refuse(read.sentences);
  const { doc } = read;
  const names = { replaced: options.replaced ?? doc.replaced, proposed: options.proposed ?? doc.proposed };
  const unknown = Object.values(names).filter((name) => !doc.assemblies.some((a) => a.name === name));
  if (unknown.length > 0) {
    const has = doc.assemblies.map((a) => a.name).join(', ');
    return refuse(unknown.map((name) => `No assembly of this build is called ${name}. It has: ${has}.`));
  }
  print(doc, names, options);
  return 0;
}

function print(
  doc: BuildDocument,
  names: { readonly replaced: string; readonly proposed: string },
  options: Extract<SumsOptions, { kind: 'asked' }>,
): void {
  const groups = compared(sumsOf(doc, names.replaced), sumsOf(doc, names.proposed));
  process.stdout.write(
    options.json
      ? `${JSON.stringify(reportedSums(doc, names, groups), null, 2)}\n`
      : printedSums(doc, names, groups, options.explain),
  );
}

// A reader that has seen enough (such as `head`) closes the pipe: no fault of the build.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') process.exitCode = refuse([`The result can't be written: ${error.message}.`]);
});

try {
  process.exitCode = run(process.argv.slice(2));
} catch (error) {
  const why = error instanceof Error ? error.message : String(error);
  process.exitCode = refuse([`The sums can't be done, by a fault of the program, not of the file: ${why}`]);
}
