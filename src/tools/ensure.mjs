// Makes what is missing before a command runs: the packages of the lock file, the compiled kernel and, with --browser, a
// Chromium.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ensureBrowser } from './browser.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const OLDEST_NODE = [20, 19];

function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  throw new Error(`Hourline needs Node ${OLDEST_NODE.join('.')} or newer; this is ${process.versions.node}`);
}

/** npm notes what it installed in node_modules/.package-lock.json; packages for other platforms are absent there. */
function packagesMissing() {
  const installed = `${root}node_modules/.package-lock.json`;
  if (!existsSync(installed)) return true;
  const have = JSON.parse(readFileSync(installed, 'utf8')).packages;
  const want = JSON.parse(readFileSync(`${root}package-lock.json`, 'utf8')).packages;
  return Object.entries(want).some(
    ([where, wanted]) => where !== '' && !wanted.optional && have[where]?.version !== wanted.version,
  );
}

try {
  checkNode();
  if (packagesMissing()) {
    console.error('hourline: installing packages (npm ci)');
    // Output to standard error, so that a command whose result is read by a program stays clean.
    execFileSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
      cwd: root,
      stdio: ['ignore', 2, 2],
      shell: process.platform === 'win32',
    });
  }
  const { ensureKernel } = await import('./kernel.mjs');
  await ensureKernel();
  if (process.argv.includes('--browser')) ensureBrowser();
} catch (error) {
  console.error(`hourline: ${error.message}`);
  process.exit(1);
}
