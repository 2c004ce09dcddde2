/** Writes the table of rules in DEVELOPERS.md from the rules themselves. */
import { readFileSync, writeFileSync } from 'node:fs';
import { RULES } from '../src/build/index.ts';

const FILE = new URL('../DEVELOPERS.md', import.meta.url);
const HEAD = '| rule | what is allowed | why |\n| --- | --- | --- |\n';

const text = readFileSync(FILE, 'utf8');
const start = text.indexOf(HEAD);
if (start < 0) throw new Error('DEVELOPERS.md has no table of rules to be replaced.');
const end = text.indexOf('\n\n', start);
const cell = (said: string): string => said.replaceAll('|', '\\|');
const rows = RULES.map((r) => `| ${cell(r.name)} | ${cell(r.what)} | ${cell(r.why)} |`);
writeFileSync(FILE, text.slice(0, start) + HEAD + rows.join('\n') + text.slice(end));
