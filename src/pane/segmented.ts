/** One choice out of a few, all in sight: a group of radio buttons drawn as one bar. Arrow keys and labels are the browser's. */

export interface Segment<V extends string | number> {
  readonly value: V;
  readonly label: string;
}

export interface Segmented<V extends string | number> {
  readonly element: HTMLElement;
  /** Shows the choices and marks one; keeps the buttons, and with them the focus, when the choices are the same. */
  readonly show: (segments: readonly Segment<V>[], chosen: V) => void;
}

let serial = 0;

/** `choose` is called when the user picks another segment, never by `show`. */
export function createSegmented<V extends string | number>(
  doc: Document,
  legendText: string,
  choose: (value: V) => void,
): Segmented<V> {
  serial += 1;
  const group = `sw-segmented-${serial}`;
  const element = doc.createElement('fieldset');
  element.className = 'sw-seg';
  const legend = doc.createElement('legend');
  legend.textContent = legendText;
  const bar = doc.createElement('div');
  bar.className = 'sw-seg_bar';
  element.append(legend, bar);

  let shown: readonly Segment<V>[] = [];
  let inputs: readonly HTMLInputElement[] = [];

  function build(segments: readonly Segment<V>[]): void {
    shown = segments;
    inputs = segments.map(({ value }) => {
      const input = doc.createElement('input');
      input.type = 'radio';
      input.name = group;
      input.addEventListener('change', () => {
        if (input.checked) choose(value);
      });
      return input;
    });
    bar.replaceChildren(
      ...segments.map((segment, k) => {
        const label = doc.createElement('label');
        const text = doc.createElement('span');
        text.textContent = segment.label;
        label.append(inputs[k]!, text);
        return label;
      }),
    );
  }

  return {
    element,
    show(segments, chosen) {
      if (!same(shown, segments)) build(segments);
      segments.forEach((segment, k) => {
        inputs[k]!.checked = segment.value === chosen;
      });
    },
  };
}

function same<V extends string | number>(a: readonly Segment<V>[], b: readonly Segment<V>[]): boolean {
  return a.length === b.length && a.every((one, k) => one.value === b[k]!.value && one.label === b[k]!.label);
}
