/** What would help: the cures of the picked gap, or of the worst one, each with what it costs elsewhere and a button that carries it out. */
import type { Cure, State, Store } from '../model/index.ts';
import { lengthText } from './unitHint.ts';

/** Cures shown before the rest is asked for. */
const SHOWN_FIRST = 3;

const GRAM_INCH_PER_KG_MM = 1000 / 25.4;

export function createCures(host: HTMLElement, store: Store): { destroy(): void } {
  const doc = host.ownerDocument;
  const section = doc.createElement('section');
  section.className = 'sw-cures';
  section.setAttribute('aria-label', 'What would help');
  host.append(section);
  let all = false;

  const make = <K extends keyof HTMLElementTagNameMap>(tag: K, text = '', name = ''): HTMLElementTagNameMap[K] => {
    const made = doc.createElement(tag);
    made.textContent = text;
    if (name !== '') made.className = name;
    return made;
  };

  function row(cure: Cure, state: State): HTMLLIElement {
    const item = make('li');
    const words = make('div', '', 'sw-cures_words');
    words.append(
      make('strong', cure.what),
      make('span', `${cure.body === null ? '' : `${cure.body}, `}${cure.label}: ${cure.from} → ${cure.to}`),
    );
    words.append(make('span', sideEffects(cure, state), 'sw-cures_cost'));
    const apply = make('button', 'Apply', 'sw-button');
    apply.type = 'button';
    apply.setAttribute('aria-label', `Apply: ${cure.what}, ${cure.label} ${cure.to}`);
    apply.addEventListener('click', () => store.send({ do: 'apply cure', cure }));
    item.append(words, apply);
    return item;
  }

  function show(state: State): void {
    const { cures } = state;
    const ill = state.gaps.find((g) => g.id === (cures?.gapId ?? null));
    const troubled = state.gaps.some((g) => g.state === 'contact' || g.state === 'tight');
    const title = make('h3', 'What would help');
    const idle =
      state.refused.length > 0
        ? 'The build as typed is refused; put that right first.'
        : (cures === null ? !troubled : cures.gapId === null)
          ? 'Nothing to cure: every gap is at or above its limit.'
          : null;
    if (idle !== null) {
      section.replaceChildren(title, make('p', idle));
      return;
    }
    if (cures === null) {
      section.replaceChildren(title, make('p', 'Being worked out on the certified gap …', 'sw-cures_cost'));
      return;
    }
    const about = make(
      'p',
      ill === undefined
        ? ''
        : `For ${ill.between[0]} and ${ill.between[1]}, one change each, to the limit of ${lengthText(ill.limitMm, state.units)}.`,
      'sw-cures_cost',
    );
    if (cures.list.length === 0) {
      section.replaceChildren(
        title,
        about,
        make('p', 'No single change of these parts restores the limit within what can be built.'),
      );
      return;
    }
    const list = make('ol');
    list.append(...(all ? cures.list : cures.list.slice(0, SHOWN_FIRST)).map((cure) => row(cure, state)));
    section.replaceChildren(title, about, list);
    if (cures.list.length > SHOWN_FIRST) {
      const more = make('button', all ? 'Fewer' : `${cures.list.length - SHOWN_FIRST} more`, 'sw-button');
      more.type = 'button';
      more.setAttribute('aria-expanded', String(all));
      more.addEventListener('click', () => {
        all = !all;
        show(store.state);
      });
      section.append(more);
    }
  }

  show(store.state);
  const unwatch = store.watch((state, changed) => {
    if (changed.has('cures') || changed.has('units') || changed.has('document')) show(state);
  });
  return {
    destroy() {
      unwatch();
      section.remove();
    },
  };
}

/** What a cure costs, in a line: what follows, what changes, what else opens or closes. */
function sideEffects(cure: Cure, state: State): string {
  const parts: string[] = [];
  if (cure.compressionHeight !== null) parts.push(`compression height ${cure.compressionHeight}`);
  if (cure.rodRatio.to !== cure.rodRatio.from)
    parts.push(`rod ratio ${cure.rodRatio.from.toFixed(2)} → ${cure.rodRatio.to.toFixed(2)}`);
  const litres = cure.displacementCm3.to - cure.displacementCm3.from;
  if (Math.abs(litres) > 0.05) parts.push(`displacement ${litres < 0 ? '−' : '+'}${Math.abs(litres).toFixed(0)} cm³`);
  if (cure.momentLostKgMm !== null) {
    const amount =
      state.units === 'mm'
        ? `${cure.momentLostKgMm.toFixed(2)} kg·mm`
        : `${(cure.momentLostKgMm * GRAM_INCH_PER_KG_MM).toFixed(0)} g·in`;
    parts.push(`about ${amount} less balance moment each (steel, full arc)`);
  }
  if (cure.opens.length > 0) parts.push(`helps ${cure.opens.length} more`);
  if (cure.closes.length > 0) parts.push(`makes worse: ${cure.closes.join(', ')}`);
  return parts.join('; ');
}
