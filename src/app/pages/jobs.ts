/** The page of jobs: the library, with files to and from this computer. */
import '../../view/jobs/jobs.css';
import { parseBuild } from '../../build/index.ts';
import { exported, importLines, LARGEST_LIBRARY_BYTES, linesOf } from '../../model/jobs/exchange.ts';
import { createJobsPage } from '../../view/jobs/jobsPage.ts';
import { DEMOS } from '../demos.ts';
import { download, fileName, saveFile } from '../files.ts';
import { clock } from '../library.ts';
import { createOpening } from '../opening.ts';
import type { CreatePage } from './page.ts';

/** Lines of an export that are joined before they are handed on. */
const LINES_TOGETHER = 50;

export const createPage: CreatePage = (host, { keeper, pool, close }) => {
  const place = document.createElement('div');
  place.className = 'sw-jobs';
  host.append(place);
  const opening = createOpening(keeper, close);
  return createJobsPage(place, {
    keeper,
    close,
    saveFile,
    openFile: opening.choose,
    saveRaw: (name, content) =>
      download(
        new Blob([JSON.stringify(content, null, 1)], { type: 'application/json' }),
        `${fileName(name, 'job')}-as-found.json`,
      ),
    starts: DEMOS.map(({ label, text }) => ({
      label,
      doc: () => {
        const read = parseBuild(text);
        if (!read.ok) throw new RangeError(`${label} can't be used`);
        return read.doc;
      },
    })),
    send: async (progress) => {
      await keeper.flush();
      const parts: string[] = [];
      const lines = exported(keeper.library, keeper.snapshots, clock);
      let [count, together] = [0, ''];
      for (;;) {
        const next = await lines.next();
        if (next.done) {
          parts.push(together);
          const day = new Date(clock.nowMs()).toISOString().slice(0, 10);
          download(new Blob(parts, { type: 'application/jsonl' }), `strokewright-jobs-${day}.jsonl`);
          // Head and end are no job and no snapshot.
          return { lines: count - 2, left: next.value };
        }
        together += `${next.value}\n`;
        count += 1;
        if (count % LINES_TOGETHER !== 0) continue;
        parts.push(together);
        together = '';
        progress(count);
      }
    },
    take: async (file, progress) => {
      if (file.size > LARGEST_LIBRARY_BYTES) {
        const value = `${file.name}, ${(file.size / 1e6).toFixed(1)} MB,`;
        const allowed = `A library file has at most ${LARGEST_LIBRARY_BYTES / 1e6} MB.`;
        return { taken: 0, beside: [], already: 0, problems: [{ place: '', value, rule: 'file size', allowed }] };
      }
      const { library, snapshots, storage } = keeper;
      const came = await importLines(linesOf(file), { storage, library, snapshots, pool, clock, progress });
      keeper.changed();
      return came;
    },
  });
};
