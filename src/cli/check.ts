/**
 * The command `check`: reads a build file, judges an assembly, prints the result. Exit status 0 every gap clears, 1
 * something is tight, in contact or unproven, 2 the build can't be judged.
 */
import { mapAsked, mapped, printedMap } from './map.ts';
import { readOptions, USAGE } from './options.ts';
import { printed } from './printed.ts';
import { readBuild } from './readBuild.ts';
import { judge } from './report.ts';
import { plain } from './words.ts';

function refuse(sentences: readonly string[]): number {
  process.stderr.write(sentences.map((s) => `${plain(s)}\n`).join(''));
  return 2;
}

function run(args: readonly string[]): number {
  const options = readOptions(args);
  if (options.kind === 'refused') return refuse([options.sentence]);
  if (options.kind === 'help') {
    process.stdout.write(USAGE);
    return 0;
  }
  const { file, assembly, json } = options.asked;
  const read = readBuild(file);
  if (!read.ok) return refuse(read.sentences);
  const { doc } = read;
  const name = assembly ?? doc.proposed;
  if (!doc.assemblies.some((a) => a.name === name)) {
    const names = doc.assemblies.map((a) => a.name).join(', ');
    return refuse([`No assembly of this build is called ${name}. It has: ${names}.`]);
  }
  const spec = mapAsked(doc, name, options.asked);
  if (typeof spec === 'string') return refuse([spec]);
  const judged = judge(doc, name, options.asked);
  const map = spec === null ? null : mapped(spec);
  const report = map === null ? judged.report : { ...judged.report, map: map.report };
  const text = map === null ? printed(judged) : `${printed(judged)}\n${printedMap(map)}`;
  process.stdout.write(json ? `${JSON.stringify(report, null, 2)}\n` : text);
  const { contact, tight, unproven } = judged.report.states;
  return contact + tight + unproven === 0 ? 0 : 1;
}

// A reader that has seen enough (such as `head`) closes the pipe: no fault of the build.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') process.exitCode = refuse([`The result can't be written: ${error.message}.`]);
});

try {
  process.exitCode = run(process.argv.slice(2));
} catch (error) {
  const why = error instanceof Error ? error.message : String(error);
  process.exitCode = refuse([`The build can't be judged, by a fault of the program, not of the file: ${why}`]);
}
