/**
 * Step of the build: makes `counter.html`, one page with script and style inside, that opens from disk. Its policy allows its
 * own script and styles, named by their digests, and no request at all. The page of what is handed out writes a build into it.
 */
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';

const NAME = 'counter.html';

/** A page that opens from disk can fetch no worker: its code lies in the page. */
const workersInside: Plugin = {
  name: 'strokewright-workers-inside',
  enforce: 'pre',
  resolveId(source, importer) {
    return source.endsWith('?worker') ? this.resolve(`${source}&inline`, importer, { skipSelf: true }) : null;
  },
};

export function alone(): Plugin {
  return {
    name: 'strokewright-alone',
    apply: 'build',
    applyToEnvironment: (environment) => environment.name === 'client',
    writeBundle: {
      order: 'pre',
      sequential: true,
      async handler({ dir }) {
        if (dir === undefined) throw new Error('the build has no folder to write the page into');
        const root = resolve('src/app/alone');
        await build({
          configFile: false,
          root,
          publicDir: false,
          logLevel: 'warn',
          plugins: [workersInside, viteSingleFile({ removeViteModuleLoader: true })],
          build: {
            target: 'es2023',
            outDir: dir,
            emptyOutDir: false,
            chunkSizeWarningLimit: 3000,
            rolldownOptions: { input: join(root, NAME) },
          },
        });
        const path = join(dir, NAME);
        writeFileSync(path, withPolicy(readFileSync(path, 'utf8')));
      },
    },
  };
}

function withPolicy(page: string): string {
  const digests = (pattern: RegExp): string =>
    [...page.matchAll(pattern)].map((m) => `'sha256-${createHash('sha256').update(m[1]!).digest('base64')}'`).join(' ');
  const script = digests(/<script type="module"[^>]*>([\s\S]*?)<\/script>/g);
  const style = digests(/<style[^>]*>([\s\S]*?)<\/style>/g);
  if (script === '' || style === '') throw new Error(`${NAME} has no script or no style inside`);
  const policy = `default-src 'none'; script-src ${script}; style-src ${style}; img-src data: blob:; worker-src blob: data:; base-uri 'none'; form-action 'none'`;
  return page.replace('<title>', `<meta http-equiv="Content-Security-Policy" content="${policy}" />\n    <title>`);
}
