/** The lessons to choose from, and all that is kept of them on this machine. */
import type { Kept } from '../../model/lessons/index.ts';
import { html } from '../element.ts';

export interface ListedLesson {
  readonly key: string;
  readonly title: string;
  readonly about: string;
  readonly rounds: number;
}

/** `open` is told the key of a lesson. */
export function lessonList(lessons: readonly ListedLesson[], kept: Kept, open: (key: string) => void): HTMLElement {
  const list = html('ol', { class: 'sw-lesson-list' });
  for (const { key, title, about, rounds } of lessons) {
    const before = kept[key];
    const button = html(
      'button',
      { type: 'button', 'data-lesson': key },
      html('span', { class: 'sw-lesson-title' }, title),
      html('span', { class: 'sw-lesson-about' }, about),
    );
    const state =
      before === undefined
        ? ''
        : before.finished
          ? 'Finished'
          : `Question ${Math.min(before.said.length, rounds)} of ${rounds} answered`;
    if (state !== '') button.append(html('span', { class: 'sw-lesson-state' }, state));
    button.addEventListener('click', () => open(key));
    list.append(html('li', {}, button));
  }
  return list;
}

/** Every word that is kept, and the button that forgets it. */
export function keptPart(
  lessons: readonly ListedLesson[],
  kept: Kept,
  lasting: boolean,
  forget: () => void,
): HTMLElement {
  const part = html(
    'section',
    { class: 'sw-lesson-kept', 'aria-label': 'What is kept on this machine' },
    html('h3', {}, 'What is kept on this machine'),
  );
  const keys = Object.keys(kept);
  part.append(
    html(
      'p',
      { class: 'sw-quiet' },
      lasting
        ? 'Your own predictions, so that you find your place again. Nobody else sees them and nothing is counted. This is all of it:'
        : 'This browser keeps nothing for pages here: what you said lasts until the page is closed. This is all of it:',
    ),
  );
  if (keys.length === 0) {
    part.append(html('p', {}, 'Nothing.'));
    return part;
  }
  const rows = keys.map((key) => {
    const title = lessons.find((lesson) => lesson.key === key)?.title ?? key;
    const { said, finished } = kept[key]!;
    return html(
      'li',
      {},
      `${title}: ${said.length === 0 ? 'opened' : said.map((text, k) => `${k + 1}. ${text}`).join('  ')}${finished ? ' Finished.' : ''}`,
    );
  });
  const button = html('button', { type: 'button', class: 'sw-button' }, 'Forget it all');
  button.addEventListener('click', forget);
  part.append(html('ul', {}, ...rows), button);
  return part;
}
