/**
 * The kinds of dimension a field may hold: its unit and its sign, as zod schemas with a name of their own in the published
 * JSON schema.
 */

import { type LiteralKind, readLiteral } from './literalGrammar.ts';
import { z } from './zod.ts';

type Sign = 'positive' | 'zero or positive' | 'any';

const SIGN_TEXT: Readonly<Record<Sign, string>> = {
  positive: 'Allowed: greater than zero.',
  'zero or positive': 'Allowed: zero or greater.',
  any: '',
};

const NUMBER_PATTERN = '[0-9.]+( *(±|\\+/-|\\+)[0-9./ +−-]+)? *';

/** For editors that check as one types; the program itself reads by the grammar. */
const PATTERN: Readonly<Record<LiteralKind, string>> = {
  length: '^[-+−]?[0-9./ -]+( *(±|\\+/-|\\+)[0-9./ +−-]+)? *(in|"|thou|mm)$',
  angle: '^[-+−]?[0-9.]+( *(±|\\+/-|\\+)[0-9./ +−-]+)? *(deg|°)$',
  speed: '^\\+?[0-9.]+( *(±|\\+/-|\\+)[0-9./ +−-]+)? *rpm$',
  mass: `^[-+−]?${NUMBER_PATTERN}(g|kg|oz|lb)$`,
  volume: `^[-+−]?${NUMBER_PATTERN}(cc|cm3|cm³|cu in|in3|in³)$`,
  area: `^[-+−]?${NUMBER_PATTERN}(mm2|mm²|sq in|in2|in²)$`,
  stress: `^[-+−]?${NUMBER_PATTERN}(GPa|MPa|psi)$`,
  viscosity: `^[-+−]?${NUMBER_PATTERN}(mPa s|cP)$`,
  temperature: `^[-+−]?${NUMBER_PATTERN}(K|°C)$`,
  expansion: `^[-+−]?${NUMBER_PATTERN}ppm/K$`,
};

const provenance = z.enum(['measured', 'stated', 'assumed']).meta({
  id: 'provenance',
  description: 'Where a figure comes from: measured on the part, stated by its maker or a drawing, or assumed.',
});

type Greatest = { readonly base: number; readonly said: string };

/** A literal by itself, without where it comes from. */
function literalOf(kind: LiteralKind, sign: Sign, greatestBase?: Greatest) {
  return z
    .string()
    .superRefine((text, ctx) => {
      const read = readLiteral(text, kind);
      const add = (rule: string, message: string) => ctx.addIssue({ code: 'custom', message, params: { rule } });
      if (!read.ok) {
        add('dimension', read.offending === text ? read.allowed : `“${read.offending}” can’t be read. ${read.allowed}`);
      } else if (sign === 'positive' ? !read.base.gt(0) : sign === 'zero or positive' && read.base.lt(0)) {
        add('sign', SIGN_TEXT[sign]);
      } else if (greatestBase !== undefined && read.base.gt(greatestBase.base)) {
        add('range', `Allowed: up to ${greatestBase.said}.`);
      }
    })
    .meta({ pattern: PATTERN[kind] });
}

function dimOf(id: string, kind: LiteralKind, sign: Sign, description: string, greatestBase?: Greatest) {
  const value = literalOf(kind, sign, greatestBase);
  return z
    .strictObject(
      { value, from: provenance },
      {
        error: (issue) =>
          issue.code === 'unrecognized_keys'
            ? 'Names allowed here: value, from.'
            : issue.code === 'invalid_type'
              ? `Allowed: a dimension such as { "value": "${EXAMPLES[kind]}", "from": "measured" }.`
              : undefined,
      },
    )
    .meta({ id, description });
}

const EXAMPLES: Readonly<Record<LiteralKind, string>> = {
  length: '3.750 in',
  angle: '66 deg',
  speed: '3600 rpm',
  mass: '584.5 g',
  volume: '64 cc',
  area: '180 mm2',
  stress: '205 GPa',
  viscosity: '12 mPa s',
  temperature: '80 K',
  expansion: '11.5 ppm/K',
};

export { provenance };
export const positiveLength = dimOf(
  'positiveLength',
  'length',
  'positive',
  'A length above zero: "3.750 in", "2 5/8 in", "60 thou", "152.4 mm", with a tolerance "3.750 ±0.001 in".',
);
export const lengthFromZero = dimOf(
  'lengthFromZero',
  'length',
  'zero or positive',
  'A length of zero or more, "0 in".',
);
export const signedLength = dimOf('signedLength', 'length', 'any', 'A length of either sign, "-.040 in".');
export const positiveAngle = dimOf('positiveAngle', 'angle', 'positive', 'An angle above zero, "110 deg" or "110°".');
export const quarterAngle = dimOf('quarterAngle', 'angle', 'positive', 'An angle above zero, up to 90 degrees.', {
  base: 90,
  said: '90 deg',
});
export const signedAngle = dimOf('signedAngle', 'angle', 'any', 'An angle of either sign, "-45 deg".');
export const positiveSpeed = dimOf('positiveSpeed', 'speed', 'positive', 'A speed, "3600 rpm".');

export const massFromZero = dimOf(
  'massFromZero',
  'mass',
  'zero or positive',
  'A weight as the scale shows it, "584.5 g".',
);
export const positiveMass = dimOf('positiveMass', 'mass', 'positive', 'A weight above zero, "584.5 g".');
export const signedVolume = dimOf('signedVolume', 'volume', 'any', 'A volume of either sign, "-8 cc".');
export const volumeFromZero = dimOf('volumeFromZero', 'volume', 'zero or positive', 'A volume, "64 cc".');
export const positiveArea = dimOf('positiveArea', 'area', 'positive', 'An area above zero, "180 mm2".');
export const positiveStress = dimOf('positiveStress', 'stress', 'positive', 'A modulus or a strength, "205 GPa".');
export const positiveViscosity = dimOf('positiveViscosity', 'viscosity', 'positive', 'Dynamic viscosity, "12 mPa s".');
export const temperatureRise = dimOf('temperatureRise', 'temperature', 'any', 'A difference of temperature, "80 K".');
export const expansionRate = dimOf(
  'expansionRate',
  'expansion',
  'zero or positive',
  'Linear growth by heat, "11.5 ppm/K".',
);

/** Readings of the bench: they are measured, all of them. */
export const measuredLength = literalOf('length', 'any');
export const measuredAngle = literalOf('angle', 'any');
