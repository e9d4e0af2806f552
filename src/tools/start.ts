// `npm start`: builds when something changed since the last build, serves dist/ and opens the browser.
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildAll } from './build.ts';
import { serve } from './serve.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const SOURCES = ['src', 'cells', 'package.json', 'package-lock.json'];
const PORT = 4646;

/** Time of the newest change to a file or, since deleting one is a change too, a folder. */
function newestChange(place: string): number {
  const stat = statSync(place);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(place).map((name) => newestChange(path.join(place, name))));
}

function isBuilt(): boolean {
  const built = path.join(root, 'dist/index.html');
  const newest = Math.max(...SOURCES.map((source) => newestChange(path.join(root, source))));
  return existsSync(built) && statSync(built).mtimeMs > newest;
}

/** Opens the address in the user's browser where there is a screen. */
function openBrowser(url: string): void {
  const { platform, env } = process;
  if (platform === 'linux' && !env.DISPLAY && !env.WAYLAND_DISPLAY) return;
  const [program, ...before] =
    platform === 'darwin' ? ['open'] : platform === 'win32' ? ['cmd', '/c', 'start', ''] : ['xdg-open'];
  const opened = spawn(program!, [...before, url], { stdio: 'ignore', detached: true });
  opened.on('error', () => {}); // no opener: the address is printed anyway
  opened.unref();
}

if (!isBuilt()) await buildAll();
const served = await serve(path.join(root, 'dist'), PORT);
console.log(`\nHourline is at ${served.url}  (Ctrl-C ends it)`);
if (!process.argv.includes('--no-open')) openBrowser(served.url);
