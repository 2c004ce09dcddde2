/** The card for the balancer: how the bobweight comes about, line by line, and the sums of balance that go with it. */
import type { BuildDocument, Dim } from '../../build/document.ts';
import { shopOf } from '../sums/shop.ts';
import { type Amount, amount, type Decimal, inBase, type Sum } from '../sums/sum.ts';
import { groupFor } from './sums.ts';

export interface CardLine {
  readonly name: string;
  /** Null: not stated. */
  readonly each: Dim | null;
  /** How many times it counts: rods on the pin, times the factor for what goes up and down. */
  readonly times: Decimal;
  readonly part: Amount | null;
}

export interface Bobweight {
  readonly rods: number;
  readonly factor: Decimal;
  /** The build states no factor: the usual one is taken. */
  readonly usualFactor: boolean;
  readonly lines: readonly CardLine[];
  readonly total: Amount | null;
  readonly lacks: readonly string[];
}

export interface BalanceCard {
  readonly bobweights: readonly Bobweight[];
  /** The other sums of balance that come to something. */
  readonly others: readonly Sum[];
}

const RECIPROCATING = new Set(['rod, small end', 'piston', 'piston pin', 'rings of a piston', 'locks of a pin']);
const ONCE = 'oil of a crankpin';

export function balanceCardOf(doc: BuildDocument, assembly: string): BalanceCard {
  const shop = shopOf(doc, assembly);
  const sums = groupFor(doc, assembly, 'Balance');
  const cards = sums.filter((s) => s.key.startsWith('bobweight of a crankpin'));
  return {
    bobweights: cards.map((card) => bobweightOf(card, shop.assembly.balance?.factor === undefined)),
    others: sums.filter((s) => !cards.includes(s) && s.amount !== null),
  };
}

function bobweightOf(card: Sum, usualFactor: boolean): Bobweight {
  const value = (name: RegExp): Decimal => inBase(card.inputs.find((i) => name.test(i.name))!)!;
  const factor = value(/^balance factor/);
  const rods = value(/^rods on a pin$/);
  const weights = card.inputs.filter((i) => !/^(balance factor|rods on a pin)/.test(i.name));
  return {
    rods: rods.toNumber(),
    factor,
    usualFactor,
    lines: weights.map((input): CardLine => {
      const once = rods.div(rods);
      const times = input.name === ONCE ? once : RECIPROCATING.has(input.name) ? rods.times(factor) : rods;
      const grams = inBase(input);
      return {
        name: input.name,
        each: input.dim ?? null,
        times,
        part: grams === null ? null : amount('weight', grams.times(times)),
      };
    }),
    total: card.amount,
    lacks: card.lacks,
  };
}
