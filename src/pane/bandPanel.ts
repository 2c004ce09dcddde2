/** The swept band: of which body of the picked pair, seen from where, with the limit round it or not; and the drawing for the shop. */
import { bandTemplate } from '../model/envelope/bandTemplate.ts';
import { type BandAsked, hasBand } from '../model/envelope/pairBand.ts';
import { STATED_EXCESS_MM } from '../model/envelope/sweep.ts';
import type { BandWatcher } from '../model/envelope/watcher.ts';
import type { State, Store } from '../model/state.ts';
import { templateDxf, templateSvg } from '../model/template.ts';
import { button, labelled, make } from './make.ts';
import { lengthText } from './unitHint.ts';
import './bandPanel.css';

export function createBandPanel(host: HTMLElement, store: Store, watcher: BandWatcher): void {
  const panel = make('section', '', 'sw-band');
  panel.setAttribute('aria-label', 'Swept band');
  const about = make('p', '', 'sw-band_quiet');
  const choose = make('select');
  const limit = make('input');
  limit.type = 'checkbox';
  limit.id = 'sw-band-limit';
  const limitLabel = make('label', 'With its limit round it: the line to stay outside of');
  limitLabel.htmlFor = limit.id;
  const limitRow = make('div', '', 'sw-band_check');
  limitRow.append(limit, limitLabel);
  const said = make('p', '', 'sw-band_quiet');
  said.setAttribute('role', 'status');
  const files = make('div', '', 'sw-band_files');
  files.append(
    button('Save as DXF', () => save('dxf')),
    button('Save as SVG, full size', () => save('svg')),
  );
  panel.append(make('h3', 'Swept band'), about, labelled('Show', choose), limitRow, said, files);
  host.append(panel);

  /** What is offered now, in the order of the list; the first entry of the list is none. */
  let offered: readonly Omit<BandAsked, 'withLimit'>[] = [];

  function pairOf(state: State): State['engine']['pairs'][number] | undefined {
    const id = state.picked ?? state.gaps.find((g) => g.kind !== 'deck')?.id;
    return state.engine.pairs.find((p) => p.id === id);
  }

  function ask(): void {
    const chosen = offered[Number(choose.value) - 1];
    watcher.ask(chosen === undefined ? null : { ...chosen, withLimit: limit.checked });
  }

  function offer(state: State): void {
    const pair = pairOf(state);
    const list =
      pair === undefined
        ? []
        : (['b', 'a'] as const).flatMap((of) =>
            (['partner', 'block'] as const)
              .filter((from) => hasBand(pair, of, from))
              .map((from) => ({ pairId: pair.id, of, from })),
          );
    about.textContent =
      pair === undefined
        ? 'Pick a pair of parts that move.'
        : `What a part of ${pair.a.name} · ${pair.b.name} passes over in the whole turn. Seen from the other part it shows what that part may be cut to.`;
    if (JSON.stringify(list) === JSON.stringify(offered)) return;
    offered = list;
    choose.replaceChildren(
      new Option('None', '0'),
      ...list.map(({ of, from }, k) => {
        const [body, partner] = of === 'a' ? [pair!.a, pair!.b] : [pair!.b, pair!.a];
        return new Option(`${body.name} seen from ${from === 'block' ? 'the block' : partner.name}`, String(k + 1));
      }),
    );
    const asked = watcher.state.asked;
    if (asked === null) return;
    // Another pair: the same view of it, where it has one.
    const same = list.findIndex((one) => one.of === asked.of && one.from === asked.from);
    choose.value = String(same + 1);
    ask();
  }

  function show(state: State): void {
    const { asked, band, done, failed } = watcher.state;
    files.hidden = band === null;
    limitRow.hidden = asked === null;
    if (failed !== null) said.textContent = `The band could not be worked out: ${failed}`;
    else if (asked === null) said.textContent = '';
    else if (done < 1) said.textContent = `Being worked out: ${Math.floor(done * 100)} %.`;
    else if (band === null) said.textContent = 'These two share no stretch along the shaft: nothing is passed over.';
    else
      said.textContent =
        `Contains all that ${band.name} ever covers where it can meet the other part, and at most ${lengthText(STATED_EXCESS_MM, state.units)} more` +
        `${band.limitMm > 0 ? `; with ${lengthText(band.limitMm, state.units)} round it` : ''}. Verify on the real parts before cutting.`;
  }

  function save(kind: 'dxf' | 'svg'): void {
    const { band } = watcher.state;
    if (band === null) return;
    const { doc, engine, units } = store.state;
    const template = bandTemplate(doc, engine, band);
    const options = {
      unit: units === 'mm' ? ('mm' as const) : ('in' as const),
      seenFrom: 'front' as const,
      date: new Date().toISOString().slice(0, 10),
    };
    const text = kind === 'dxf' ? templateDxf(doc, template, options) : templateSvg(doc, template, options);
    const url = URL.createObjectURL(new Blob([text], { type: kind === 'dxf' ? 'image/vnd.dxf' : 'image/svg+xml' }));
    const link = make('a');
    link.href = url;
    link.download = `${template.name.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.${kind}`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
  }

  choose.addEventListener('change', ask);
  limit.addEventListener('change', ask);
  offer(store.state);
  show(store.state);
  store.watch((state, changed) => {
    if (changed.has('engine') || changed.has('view') || changed.has('gaps')) offer(state);
    if (changed.has('units')) show(state);
  });
  watcher.watch(() => show(store.state));
}
