// A share of the changes in the place of all: the code is divided into its smallest statements, the conditions and steps of its
// branches and loops, and the bodies of its short functions; each of these is left alone, or changed in every way, by a hash of
// where it stands. SHARE is the part to be changed, DRAW another choice of the same size.
import { declareValuePlugin, PluginKind } from '@stryker-mutator/api/plugin';

const share = Number(process.env.SHARE ?? 1);
const draw = Number(process.env.DRAW ?? 1);

/** FNV-1a of a place, mixed once more (the finish of MurmurHash3) since neighbours differ in few bits; 0 to 1. */
function chanceOf(text) {
  let h = 2166136261;
  for (const letter of text) h = Math.imul(h ^ letter.codePointAt(0), 16777619);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32;
}

const LEAVES = new Set(['ExpressionStatement', 'ReturnStatement', 'VariableDeclaration', 'ThrowStatement']);
const HEADS = new Set(['test', 'update', 'discriminant']);

function isUnit(path) {
  if (HEADS.has(path.key) && path.parentPath?.isStatement()) return true;
  if (path.key === 'body' && path.parentPath?.isArrowFunctionExpression()) return !path.isBlockStatement();
  if (!LEAVES.has(path.node.type)) return false;
  // One that holds a function with statements of its own is no smallest one.
  let holds = false;
  path.traverse({
    Statement(inner) {
      holds = true;
      inner.stop();
    },
  });
  return !holds;
}

export const strykerPlugins = [
  declareValuePlugin(PluginKind.Ignore, 'sample', {
    shouldIgnore(path) {
      if (share >= 1 || !path.node.loc || !isUnit(path)) return undefined;
      const { start, end } = path.node.loc;
      const place = `${draw} ${start.line}:${start.column} ${end.line}:${end.column} ${path.node.type}`;
      return chanceOf(place) < share ? undefined : 'not drawn';
    },
  }),
];
