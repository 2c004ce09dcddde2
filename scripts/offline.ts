/**
 * Step of the build: makes `offline.js`, the service worker (src/app/offline/offline.ts), and writes the list of all built files
 * before it. The version is a digest of what is in them, so the same files are the same version.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

const NAME = 'offline.js';

export function offline(): Plugin {
  return {
    name: 'strokewright-offline',
    apply: 'build',
    applyToEnvironment: (environment) => environment.name === 'client',
    buildStart() {
      this.emitFile({ type: 'chunk', id: 'src/app/offline/offline.ts', fileName: NAME });
    },
    writeBundle({ dir }) {
      if (dir === undefined) throw new Error('the build has no folder to write the list of files for');
      const files = readdirSync(dir, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && !entry.name.endsWith('.map'))
        .map((entry) =>
          join(entry.parentPath, entry.name)
            .slice(dir.length + 1)
            .replaceAll('\\', '/'),
        )
        .filter((file) => file !== NAME)
        .sort();
      const worker = join(dir, NAME);
      const code = readFileSync(worker, 'utf8');
      if (/^\s*(import|export)\b/m.test(code)) throw new Error(`${NAME} must stand alone`);
      const digest = createHash('sha256').update(code);
      for (const file of files) digest.update(`\n${file}\n`).update(readFileSync(join(dir, file)));
      const built = { version: digest.digest('hex').slice(0, 16), files };
      writeFileSync(worker, `const BUILT=${JSON.stringify(built)};\n${code}`);
    },
  };
}
