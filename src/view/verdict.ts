/** The verdict: does it fit, where is it worst, in words and large figures. Always on screen. */
import { problemSentence } from '../model/index.ts';
import type { State, Store } from '../model/state.ts';
import { html, setText } from './element.ts';
import { cureSentence, proofWords, verdictHeadline, verdictSentence, verdictState, worstGap } from './gapWords.ts';
import { isMoving } from './inView.ts';
import { finerFor, formatLengthParts } from './words.ts';

/** Fills `host`; only verdicts that are settled are read out. */
export function createVerdict(host: HTMLElement, store: Store): { destroy(): void } {
  const figure = html('p', { class: 'sw-verdict-figure sw-inked' });
  const first = html('span');
  const second = html('span', { class: 'sw-verdict-second' });
  figure.append(html('span', { class: 'sw-unseen' }, 'Worst gap: '), first, second);
  const headline = html('h2', { class: 'sw-verdict-headline sw-inked' });
  const sentence = html('p', { class: 'sw-verdict-sentence' });
  const refused = html('p', { class: 'sw-verdict-refused' });
  const cure = html('p', { class: 'sw-verdict-cure' });
  // How far the figures can be relied on has a place of its own, so that nothing moves when it changes.
  const proof = html('p', { class: 'sw-verdict-proof' });
  const lead = html('div', { class: 'sw-verdict-lead' }, figure, proof);
  const words = html('div', { class: 'sw-verdict-words' }, headline, sentence, refused, cure);
  const spoken = html('p', { class: 'sw-unseen', 'aria-live': 'polite' });
  host.replaceChildren(html('div', { class: 'sw-verdict-row' }, lead, words), spoken);

  function show(state: State): void {
    const worst = worstGap(state.gaps);
    figure.hidden = worst === null;
    if (worst !== null) {
      const [inFirst, inSecond] = formatLengthParts(worst.gapMm, state.units, finerFor(worst, state.units));
      setText(first, inFirst);
      setText(second, inSecond);
      figure.dataset['state'] = worst.state;
    }
    const settled = !isMoving(state);
    setText(headline, verdictHeadline(state.gaps));
    headline.dataset['state'] = verdictState(state.gaps);
    const plain = verdictSentence(state.gaps, state.engine, state.units);
    const help = cureSentence(state.cures, worst);
    // The line keeps its place when there is nothing to say, so that the paper below does not move.
    setText(cure, help);
    setText(sentence, plain);
    // While the build as typed is refused the reason stands where the sentence was; the figures are the last ones.
    const isRefused = state.refused.length > 0;
    setText(proof, isRefused ? 'as last laid out' : proofWords(state.gaps));
    setText(refused, state.refused.map(problemSentence).join(' '));
    refused.hidden = !isRefused;
    sentence.hidden = isRefused;
    if (settled)
      setText(
        spoken,
        isRefused
          ? `${refused.textContent} The figures are those of the last build that could be laid out.`
          : `${headline.textContent} ${plain} ${help}`.trim(),
      );
  }

  show(store.state);
  const stop = store.watch((state, changed) => {
    if (
      changed.has('document') ||
      changed.has('engine') ||
      changed.has('gaps') ||
      changed.has('units') ||
      changed.has('cures')
    )
      show(state);
  });
  return {
    destroy() {
      stop();
      host.replaceChildren();
    },
  };
}
