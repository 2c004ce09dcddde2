/** Hands a body's outline out as a drawing at full size: SVG to print, DXF for a machine. */
import type { OutlineDraft } from '../../model/outlineDraft.ts';
import { targetName } from '../../model/outlineTarget.ts';
import type { State, Store } from '../../model/state.ts';
import { templateDxf, templateOf, templateSvg } from '../../model/template.ts';
import { button, make } from '../make.ts';

export interface Templates {
  readonly element: HTMLElement;
  readonly show: (state: State) => void;
}

export function createTemplates(store: Store, draft: OutlineDraft): Templates {
  const element = make('div');
  const said = make('p', '', 'sw-mock_quiet');

  function save(kind: 'svg' | 'mm' | 'in'): void {
    const { doc, engine } = store.state;
    const target = draft.target();
    const template = target === null ? null : templateOf(doc, engine, target);
    if (target === null || template === null) return;
    const now = new Date();
    const two = (n: number): string => String(n).padStart(2, '0');
    const date = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    const options = { unit: kind === 'in' ? 'in' : 'mm', seenFrom: draft.state.choices.seenFrom, date } as const;
    const file = targetName(target)
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-');
    if (kind === 'svg') hand(`${file}.svg`, templateSvg(doc, template, options), 'image/svg+xml');
    else hand(`${file}.dxf`, templateDxf(doc, template, options), 'application/dxf');
  }

  const buttons = [
    button('SVG to print', () => save('svg')),
    button('DXF, mm', () => save('mm')),
    button('DXF, in', () => save('in')),
  ];
  const row = make('div', '', 'sw-mock_row');
  row.append(...buttons);
  element.append(
    said,
    row,
    make('p', 'Print at 100 %, measure both scale bars, and verify on the part before grinding.', 'sw-mock_quiet'),
  );
  return {
    element,
    show: (state) => {
      const target = draft.target();
      const template = target === null ? null : templateOf(state.doc, state.engine, target);
      for (const each of buttons) each.disabled = template === null;
      said.textContent =
        template === null
          ? 'There is no such part to draw yet.'
          : `${template.outlines.map((o) => o.name).join(', ')}, as seen from the ${draft.state.choices.seenFrom}; the cross is the ${template.origin}.`;
    },
  };
}

function hand(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = make('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
