import { afterAll, beforeAll, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { EditingSession, MortalBrowser, VICTIMS } from './crashes.ts';
import { openStage, type Stage } from './helpers.ts';

/** How often everything dies; `HOURLINE_CRASHES=50 npx vitest run --project e2e tests/e2e/crash.test.ts` for more. */
const CRASHES = Number(process.env.HOURLINE_CRASHES ?? 9);
/** What may be lost at most, ms: the promise. */
const LOST_AT_MOST = 1000;

let stage: Stage;
const browser = new MortalBrowser();
beforeAll(async () => {
  stage = await openStage();
  await browser.start();
});
afterAll(async () => {
  await browser.end();
  await stage.close();
});

test(
  `killed ${CRASHES} times while somebody types, the workbook is as it was at most a second before`,
  async () => {
    const session = new EditingSession(browser, stage.served.url, new Random(6));
    await session.begin();
    for (let i = 0; i < CRASHES; i++) {
      const crash = await session.crash(VICTIMS[i % VICTIMS.length]!);
      if (process.env.HOURLINE_CRASHES) console.log(JSON.stringify(crash));
      expect(
        crash.found,
        `crash ${i} (${crash.victim}): stored is a state the session was in`,
      ).toBeGreaterThanOrEqual(0);
      expect(crash.lost, `crash ${i} (${crash.victim}): ms lost`).toBeLessThanOrEqual(LOST_AT_MOST);
      expect(crash.states, `crash ${i}: something was done`).toBeGreaterThan(1);
    }
  },
  20_000 * CRASHES,
);
