/**
 * The command `outline`: a measured outline put into a build, or a body drawn at full size. Exit status 0 done, 2 refused; what is
 * refused writes nothing. The build file itself is only read.
 */
import { readFileSync } from 'node:fs';
import { layOut } from '../assembly/layOut.ts';
import {
  type BuildDocument,
  type Dim,
  formatBuild,
  parseLength,
  problemSentence,
  readContent,
} from '../build/index.ts';
import { fileProblemSentence, type ImportedOutline, importOutline, LARGEST_FILE_BYTES } from '../exchange/index.ts';
import {
  type OutlineTarget,
  outlineAt,
  outlineTargets,
  targetName,
  withOutline,
  withoutOutline,
} from '../model/outlineTarget.ts';
import { templateDxf, templateOf, templateSvg } from '../model/template.ts';
import { type AskedOutline, OUTLINE_USAGE, readOutlineOptions, USUAL_DEVIATION } from './outlineOptions.ts';
import { readBuild } from './readBuild.ts';
import { inBoth, plain } from './words.ts';
import { type NewFile, writeNew } from './writeNew.ts';

/** Reasons to refuse, one sentence each. */
class Refusal extends Error {
  readonly sentences: readonly string[];
  constructor(...sentences: readonly string[]) {
    super(sentences[0]);
    this.sentences = sentences;
  }
}

function refuse(sentences: readonly string[]): number {
  process.stderr.write(sentences.map((s) => `${plain(s)}\n`).join(''));
  return 2;
}

function run(args: readonly string[]): number {
  const options = readOutlineOptions(args);
  if (options.kind === 'refused') return refuse([options.sentence]);
  if (options.kind === 'help') {
    process.stdout.write(OUTLINE_USAGE);
    return 0;
  }
  const { asked } = options;
  const read = readBuild(asked.file);
  if (!read.ok) return refuse(read.sentences);
  const name = asked.assembly ?? read.doc.proposed;
  const target = targetOf(read.doc, name, asked);
  const said: string[] = [];
  const doc = changed(read.doc, name, target, asked, said);
  const files: NewFile[] = [];
  if (asked.out !== undefined) files.push({ path: asked.out, text: formatBuild(doc) });
  if (asked.template !== undefined) files.push({ path: asked.template, text: drawing(doc, name, target, asked) });
  const fault = writeNew(files, asked.replace);
  if (fault !== null) return refuse([fault]);
  const lines = [...said, ...files.map((f) => `Written: ${f.path}`)];
  process.stdout.write(lines.map((line) => `${plain(line)}\n`).join(''));
  return 0;
}

function targetOf(doc: BuildDocument, assemblyName: string, asked: AskedOutline): OutlineTarget {
  const assembly = doc.assemblies.find((a) => a.name === assemblyName);
  if (assembly === undefined) {
    const names = doc.assemblies.map((a) => a.name).join(', ');
    throw new Refusal(`No assembly of this build is called ${assemblyName}. It has: ${names}.`);
  }
  const targets = outlineTargets(doc, assembly);
  const found = targets.find((t) => targetName(t) === asked.body);
  const [front, rear] = [face(asked['front-face'], '--front-face'), face(asked['rear-face'], '--rear-face')];
  if (found !== undefined && found.body !== 'fixed') {
    if (front ?? rear) throw new Refusal('--front-face and --rear-face are for fixed parts.');
    return found;
  }
  const faces = { ...(front && { front }), ...(rear && { rear }) };
  if (found !== undefined) return { ...found, ...faces };
  if (asked.fit !== undefined && front !== undefined && rear !== undefined) {
    return { body: 'fixed', name: asked.body, front, rear };
  }
  const names = targets.map(targetName).join(', ');
  throw new Refusal(
    `No body is called ${asked.body}. There are: ${names}. A new fixed part needs --fit, --front-face and --rear-face.`,
  );
}

function face(text: string | undefined, option: string): Dim | undefined {
  if (text === undefined) return undefined;
  lengthOf(text, option);
  return { value: text, from: 'measured' };
}

function lengthOf(text: string, option: string): number {
  const read = parseLength(text);
  if (!read.ok) throw new Refusal(`${option}: ${text} is refused. ${read.allowed}`);
  return read.mm.toNumber();
}

/** The build with the outline put in or taken out, judged by the rules. */
function changed(
  doc: BuildDocument,
  assembly: string,
  target: OutlineTarget,
  asked: AskedOutline,
  said: string[],
): BuildDocument {
  if (asked.clear) {
    if (outlineAt(doc, assembly, target) === undefined) {
      throw new Refusal(`${asked.body} has no measured outline of its own to take out.`);
    }
    said.push(`${asked.body}: outline taken out.`);
    return judged(withoutOutline(doc, assembly, target));
  }
  if (asked.fit === undefined) return doc;
  const deviation = asked.deviation ?? USUAL_DEVIATION;
  const { unit, columns, layer } = asked;
  const read = importOutline(bytesOf(asked.fit), asked.fit, {
    deviationMm: lengthOf(deviation, '--deviation'),
    seenFrom: asked.seen,
    rotation: doc.block.rotation,
    from: asked.from,
    ...(unit && { unit }),
    ...(columns && { columns }),
    ...(layer && { layer }),
  });
  if (!read.ok) throw new Refusal(...read.problems.map((p) => `${asked.fit}: ${fileProblemSentence(p)}`));
  said.push(...summary(asked.body, read, deviation));
  return judged(
    withOutline(doc, assembly, target, {
      outline: read.points,
      outlineFrom: asked.from,
      outlineDeviation: { value: deviation, from: 'stated' },
    }),
  );
}

function bytesOf(file: string): Uint8Array {
  try {
    return readFileSync(file).subarray(0, LARGEST_FILE_BYTES + 1);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    throw new Refusal(`${file} can't be read (${code}).`);
  }
}

function judged(doc: BuildDocument): BuildDocument {
  const read = readContent(doc);
  if (!read.ok) throw new Refusal(...read.problems.map(problemSentence));
  return read.doc;
}

function summary(body: string, read: ImportedOutline, deviation: string): string[] {
  const edges = `${read.lines} lines and ${read.arcs} arcs`;
  const what = read.fitted ? `${read.measured.length} points fitted by ${edges}` : `${edges}, as drawn`;
  const step = read.largestStepMm === null ? '' : ` Largest step between points ${inBoth(read.largestStepMm)}.`;
  return [
    `${body}: ${what}. Largest deviation ${(Math.ceil(read.largestDeviationMm * 1000) / 1000).toFixed(3)} mm, stated ${deviation}, which is taken off every gap of it.${step}`,
    ...read.notes,
  ];
}

function drawing(doc: BuildDocument, assembly: string, target: OutlineTarget, asked: AskedOutline): string {
  const template = templateOf(doc, layOut(doc, assembly), target);
  if (template === null) throw new Refusal(`${asked.body} can't be drawn: this assembly has no such body.`);
  const options = { unit: asked.unit ?? 'mm', seenFrom: asked.seen, date: new Date().toISOString().slice(0, 10) };
  return /\.dxf$/i.test(asked.template!) ? templateDxf(doc, template, options) : templateSvg(doc, template, options);
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') process.exitCode = refuse([`The result can't be told: ${error.message}.`]);
});

try {
  process.exitCode = run(process.argv.slice(2));
} catch (error) {
  if (error instanceof Refusal) process.exitCode = refuse(error.sentences);
  else {
    const why = error instanceof Error ? error.message : String(error);
    process.exitCode = refuse([`The outline can't be used, by a fault of the program, not of the file: ${why}`]);
  }
}
