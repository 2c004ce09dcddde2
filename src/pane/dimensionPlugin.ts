/** Makes the control of a dimension known to the pane: `addBinding(mirror, id, { view: 'dimension', formerWhenEmpty, mayBeEmpty })`. */
import type { BaseInputParams, InputBindingPlugin } from '@tweakpane/core';
import { DimensionController } from './dimensionController.ts';

export interface DimensionParams extends BaseInputParams {
  readonly view: 'dimension';
  /** A literal of the right kind, whose unit a bare number takes while the value is empty. */
  readonly formerWhenEmpty: string;
  /** The document may do without it. */
  readonly mayBeEmpty: boolean;
}

/** Version of the plugin interface the control is written for; the pane compares its first number. */
const CORE_VERSION = { major: 2, minor: 0, patch: 5, prerelease: null, toString: () => '2.0.5' };

/** Binds a literal, a string, as it stands. Types only come from the pane's core: a run-time import would bundle it twice. */
export const DimensionPlugin: InputBindingPlugin<string, string, DimensionParams> = {
  id: 'input-dimension',
  type: 'input',
  core: CORE_VERSION as never,
  accept(value, params) {
    const { view, formerWhenEmpty, mayBeEmpty } = params;
    if (typeof value !== 'string' || view !== 'dimension' || typeof formerWhenEmpty !== 'string') return null;
    if (typeof mayBeEmpty !== 'boolean') return null;
    return { initialValue: value, params: { ...params, view, formerWhenEmpty, mayBeEmpty } };
  },
  binding: {
    reader: () => (value) => String(value),
    constraint: () => ({ constrain: (value) => value }),
    writer: () => (target, value) => target.write(value),
  },
  controller: ({ document, value, viewProps, params }) =>
    new DimensionController(document, {
      value,
      viewProps,
      formerWhenEmpty: params.formerWhenEmpty,
      mayBeEmpty: params.mayBeEmpty,
    }),
};
