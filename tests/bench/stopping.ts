import { barButton, runCells, type Stage, untilStatus } from '../e2e/helpers.ts';
import { type Measured, median, milliseconds } from './figures.ts';

const LOOP = [{ name: 'hangs.ts', text: 'for (;;);' }];

const timed = async (act: () => Promise<unknown>): Promise<number> => {
  const start = performance.now();
  await act();
  return performance.now() - start;
};

/** While a cell never ends: a press in the host until its dialog stands, and Stop until the frame is gone. */
export async function stopping(stage: Stage, times: number): Promise<Measured[]> {
  const answers: number[] = [];
  const stops: number[] = [];
  for (let i = 0; i < times; i++) {
    const context = await stage.context();
    const page = await context.newPage();
    await runCells(page, stage.served.url, LOOP);
    await untilStatus(page, 'Not answering');
    answers.push(
      await timed(async () => {
        await page.getByRole('button', { name: 'Workbooks' }).click();
        await page.locator('hour-workbooks-dialog dialog[open]').waitFor();
      }),
    );
    await page.getByRole('button', { name: 'Close' }).first().click();
    stops.push(
      await timed(async () => {
        await barButton(page, 'Stop').click();
        await page.locator('main > iframe').waitFor({ state: 'detached' });
      }),
    );
    await context.close();
  }
  const figure = (values: number[]) => milliseconds(median(values));
  return [
    {
      what: `host answers while a cell hangs, median of ${times}`,
      figure: figure(answers),
      budget: '500 ms',
    },
    { what: `Stop to the hung frame gone, median of ${times}`, figure: figure(stops), budget: '500 ms' },
  ];
}
