// Finds (or on Debian as root installs) a Chromium for the tests. Plain JavaScript on Node's own modules, since
// it runs before anything is installed.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';

const ON_PATH = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'msedge',
];
const ELSEWHERE = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  String.raw`C:\Program Files\Google\Chrome\Application\chrome.exe`,
  String.raw`C:\Program Files (x86)\Google\Chrome\Application\chrome.exe`,
  String.raw`C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`,
];

/** Switches for a quiet, closed browser; without a sandbox only for root, who could not start one otherwise. */
export const BROWSER_ARGS = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
];

/** Path of an installed Chromium, Chrome or Edge, or null. A CHROME_PATH that leads nowhere is an error. */
export function findBrowser(env = process.env) {
  if (env.CHROME_PATH) {
    if (existsSync(env.CHROME_PATH)) return env.CHROME_PATH;
    throw new Error(
      `CHROME_PATH is ${env.CHROME_PATH}, but there is no such file; set it to a Chromium, Chrome or Edge program`,
    );
  }
  for (const folder of (env.PATH ?? '').split(path.delimiter)) {
    for (const name of ON_PATH) if (existsSync(path.join(folder, name))) return path.join(folder, name);
  }
  return ELSEWHERE.find((file) => existsSync(file)) ?? null;
}

/** As `findBrowser`, but installs Debian's Chromium when root and apt-get are here; else says what to do. */
export function ensureBrowser() {
  const found = findBrowser();
  if (found) return found;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log("hourline: installing Debian's chromium for the browser tests");
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    execFileSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
      stdio: 'inherit',
      env,
    });
    const installed = findBrowser();
    if (installed) return installed;
  }
  throw new Error(
    'the tests need Chromium, Chrome or Edge: install one, or set CHROME_PATH to its program file',
  );
}
