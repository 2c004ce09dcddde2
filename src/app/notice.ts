/** Says what is wrong with a file that was refused: every problem, each with its place, value and what is allowed. */
import { type Problem, problemSentence } from '../build/problem.ts';

export function showRefused(
  name: string,
  problems: readonly Problem[],
  heading = `${name} is refused: ${problems.length === 1 ? 'one problem' : `${problems.length} problems`}. The build on show is unchanged.`,
): void {
  const dialog = document.createElement('dialog');
  dialog.className = 'sw-notice';
  dialog.setAttribute('aria-labelledby', 'notice-title');
  const title = document.createElement('h2');
  title.id = 'notice-title';
  title.textContent = heading;
  const list = document.createElement('ul');
  for (const problem of problems) {
    const item = document.createElement('li');
    item.textContent = problemSentence(problem);
    list.append(item);
  }
  const close = document.createElement('button');
  close.type = 'button';
  close.className = 'sw-button';
  close.textContent = 'Close';
  close.addEventListener('click', () => dialog.close());
  dialog.addEventListener('close', () => dialog.remove());
  dialog.append(title, list, close);
  document.body.append(dialog);
  dialog.showModal();
}
