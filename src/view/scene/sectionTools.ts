/** The buttons over the section: what is drawn besides the parts, and how large. */
import { html } from '../element.ts';

export interface SectionTools {
  readonly element: HTMLElement;
  /** Shows what is switched on, and whether there is an assembly to show the ghost of. */
  show(is: { readonly dimensions: boolean; readonly ghost: boolean; readonly ghostThere: boolean }): void;
}

export interface SectionActions {
  readonly dimensions: () => void;
  /** Absent: no button for it. */
  readonly ghost?: () => void;
  readonly smaller: () => void;
  readonly larger: () => void;
  readonly whole: () => void;
}

export function createSectionTools(actions: SectionActions): SectionTools {
  const element = html('div', { class: 'sw-section-tools', role: 'group', 'aria-label': 'View of the section' });
  const button = (text: string, label: string, run: () => void): HTMLButtonElement => {
    const made = html('button', { type: 'button', class: 'sw-button', 'aria-label': label, title: label }, text);
    made.addEventListener('click', run);
    element.append(made);
    return made;
  };
  const dimensions = button('Dimensions', 'Dimensions on the section', actions.dimensions);
  const ghost =
    actions.ghost === undefined
      ? null
      : button('Ghost', 'Ghost of the replaced assembly, dashed over this one', actions.ghost);
  button('−', '− smaller', actions.smaller);
  button('+', '+ larger', actions.larger);
  button('Whole', 'Whole section', actions.whole);
  return {
    element,
    show(is) {
      dimensions.setAttribute('aria-pressed', String(is.dimensions));
      if (ghost === null) return;
      ghost.setAttribute('aria-pressed', String(is.ghost && is.ghostThere));
      ghost.disabled = !is.ghostThere;
    },
  };
}
