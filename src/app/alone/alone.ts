/** The file that opens from disk: one build, the view for the customer, nothing else. */
import '../../view/style.css';
import '../../view/counter/counter.css';
import './alone.css';
import { parseBuild, problemSentence } from '../../build/index.ts';
import { createStore } from '../../model/index.ts';
import { workerSolver } from '../../model/workerSolver.ts';
import { createCounterView } from '../../view/counter/counterView.ts';
import { keepTurning } from '../turning.ts';

const host = document.getElementById('page-customer')!;
const read = parseBuild(document.getElementById('build')?.textContent ?? '');
if (read.ok) {
  document.title = read.doc.name;
  const store = createStore(read.doc, { solver: workerSolver() });
  const canvas = new URLSearchParams(location.search).get('renderer') === 'canvas';
  const view = createCounterView(host, store, canvas ? { renderer: 'canvas' } : {});
  keepTurning(store);
  view.show();
} else {
  const said = document.createElement('ul');
  for (const problem of read.problems) {
    const item = document.createElement('li');
    item.textContent = problemSentence(problem);
    said.append(item);
  }
  const refused = document.createElement('div');
  refused.className = 'sw-alone-refused';
  refused.append('The build in this file can’t be used:', said);
  host.append(refused);
}
