// The whole test run, as the README names it: finds a browser (or installs the distribution's), builds the page,
// runs unit and browser tests. It never skips the browser part: without a browser it fails and says what to install.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

const CANDIDATES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const FIXED = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

function run(command, args, env = {}) {
  return spawnSync(command, args, { stdio: 'inherit', env: { ...process.env, ...env } }).status ?? 1;
}

function findBrowser() {
  const named = process.env['CHROMIUM'];
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM names ${named}, where there is no file.`);
    return named;
  }
  for (const name of CANDIDATES) {
    const found = spawnSync(process.platform === 'win32' ? 'where' : 'which', [name], { encoding: 'utf8' });
    if (found.status === 0) return found.stdout.split('\n')[0].trim();
  }
  return FIXED.find((path) => existsSync(path));
}

function isDebianRoot() {
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !existsSync('/etc/os-release')) return false;
  return /^ID(_LIKE)?=.*(debian|ubuntu)/m.test(readFileSync('/etc/os-release', 'utf8'));
}

let browser;
try {
  browser = findBrowser();
  if (!browser && isDebianRoot()) {
    console.log('No Chromium found: installing the distribution package.');
    const env = { DEBIAN_FRONTEND: 'noninteractive' };
    if (run('apt-get', ['update'], env) === 0) run('apt-get', ['install', '-y', 'chromium', 'fonts-dejavu-core'], env);
    browser = findBrowser();
  }
} catch (error) {
  console.error(error.message);
}
if (!browser) {
  console.error(
    'The browser tests need Chromium or Chrome, and none was found. Install one (Debian: apt-get install chromium;\n' +
      'others: the package "chromium", or Chrome from its maker), or set CHROMIUM to the path of one. Nothing was skipped:\n' +
      'this run failed.',
  );
  process.exit(1);
}
console.log(`Browser for the tests: ${browser}`);

const npx = process.platform === 'win32' ? 'npx.cmd' : 'npx';
for (const step of [
  ['biome', 'check', '.'],
  ['tsc', '--noEmit'],
  ['vite', 'build', '--logLevel', 'warn'],
  ['vitest', 'run', ...process.argv.slice(2)],
]) {
  const status = run(npx, ['--no-install', ...step], { CHROMIUM: browser });
  if (status !== 0) process.exit(status);
}
