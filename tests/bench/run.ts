// `npm run bench`: what a reader waits for, in real Chromium on the built workbook, each beside its budget; and the cost of
// draws, batches and recordings in Node. Nothing here fails a build: times depend on the machine. Read them as a whole.
// `npm run bench -- --all` adds the batch with draws, which takes minutes.
import path from 'node:path';
import { openStage } from '../e2e/helpers.ts';
import { batch } from './batch.ts';
import { drawCosts } from './draws.ts';
import { drawsInPage } from './drawsInPage.ts';
import type { Measured } from './figures.ts';
import { millionDraws } from './millionDraws.ts';
import { controlMove, editToChart } from './moving.ts';
import { firstLoadSize, opening } from './opening.ts';
import { recordings } from './recordings.ts';
import { referenceLines } from './references.ts';
import { stopping } from './stopping.ts';

const dist = path.resolve(import.meta.dirname, '../../dist');

function say(lines: readonly Measured[]): void {
  for (const { what, figure, budget } of lines) {
    console.log(`${what.padEnd(76)} ${figure.padStart(16)}  ${budget && `budget ${budget}`}`);
  }
}

say([firstLoadSize(dist)]);
const stage = await openStage(dist);
try {
  say(await opening(stage, 7));
  say([await editToChart(stage), await controlMove(stage)]);
  say(await stopping(stage, 3));
  say(await drawsInPage(stage));
} finally {
  await stage.close();
}
say(drawCosts());
say(millionDraws());
say(referenceLines());
say(await recordings());
say([await batch(0, '2 s')]);
if (process.argv.includes('--all')) say([await batch(1000, '60 s on two cores')]);
