import { expect, test } from 'vitest';
import { type JobStep, job, prose } from '../../src/view/view.ts';
import { openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

/** A job of many short steps; the text of the cell says how many, when it begins, and whether it has something at once. */
const counting = (text: string) => {
  const [count, begin, live] = text.split(' ') as [string, 'asked' | 'at-rest', 'live'?];
  return job({
    label: 'Counting',
    begin,
    before: live ? prose`roughly ${count}` : prose`nothing yet`,
    ...(live && { live: true }),
    *steps(): Generator<JobStep> {
      for (let i = 1; i <= Number(count); i++) {
        const until = performance.now() + 2;
        while (performance.now() < until);
        yield { share: i / Number(count), text: `${i} counted`, shown: () => prose`up to ${i}` };
      }
    },
  });
};

async function open(text: string) {
  const opened = await openPage([{ name: 'a.ts', text }], (now) => ({ shown: counting(now) }));
  const bar = await soon(() => opened.find('a.ts', '.job-bar'));
  const body = () => opened.find('a.ts', '.job-body').textContent!.trim();
  const button = () => bar.querySelector('button');
  const words = () => bar.textContent!.replace(/\s+/g, ' ').trim();
  return { ...opened, bar, body, button, words };
}

test('begins when it is asked to, tells how far it is, and shows what it came to', async () => {
  const { bar, body, button, words } = await open('200 asked');
  expect(body()).toBe('nothing yet');
  expect(button()!.textContent).toBe('Begin');
  button()!.click();
  const progress = await soon(() => {
    const element = bar.querySelector('progress')!;
    expect(element.value).toBeGreaterThan(0);
    return element;
  });
  expect(progress.getAttribute('aria-label')).toBe('Counting');
  // That its last step was the last it learns with the next slice.
  await soon(() => expect(words()).toBe('Counting 200 counted'));
  expect(body()).toBe('up to 200');
});

test('cancelled it stays where it is', async () => {
  const { body, button, words } = await open('5000 asked');
  button()!.click();
  await soon(() => expect(words()).toMatch(/\d+ counted/));
  expect(button()!.textContent).toBe('Cancel');
  button()!.click();
  await soon(() => expect(words()).toMatch(/Cancelled\. \d+ counted/));
  const [, count] = /(\d+) counted/.exec(words())!;
  expect(body()).toBe(`up to ${count}`);
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect(words()).toContain(`${count} counted`);
});

test('a press for Begin that comes when the job has just begun by itself does not cancel it', async () => {
  const { bar, button, words } = await open('5000 at-rest');
  /** A press at a moment of its own, so that nothing here hangs on how fast this runs. */
  const press = (timeStamp: number) => {
    const click = new MouseEvent('click', { bubbles: true });
    Object.defineProperty(click, 'timeStamp', { value: timeStamp });
    button()!.dispatchEvent(click);
  };
  const early = performance.now();
  await soon(() => expect(button()!.textContent).toBe('Cancel'));
  press(early);
  await new Promise(requestAnimationFrame);
  expect(button()!.textContent).toBe('Cancel');
  expect(bar.querySelector('progress')).not.toBeNull();
  press(performance.now() + 1000);
  await soon(() => expect(words()).toMatch(/Cancelled\./));
  // Asked for, it can be cancelled at once.
  press(performance.now());
  await soon(() => expect(button()!.textContent).toBe('Cancel'));
  press(early);
  await soon(() => expect(words()).toMatch(/Cancelled\./));
});

test('the page stays alive meanwhile', async () => {
  const { button, words } = await open('5000 asked');
  button()!.click();
  await soon(() => expect(words()).toMatch(/\d+ counted/));
  const before = Number(/(\d+) counted/.exec(words())![1]);
  for (let frame = 0; frame < 5; frame++) await new Promise(requestAnimationFrame);
  const after = Number(/(\d+) counted/.exec(words())![1]);
  // Steps went on, and frames came: in 5 frames far from all of the 10 seconds of work were done.
  expect(after).toBeGreaterThan(before);
  expect(after).toBeLessThan(2500);
  button()!.click();
});

test('at rest it begins by itself, and anew when its cell runs again; what was there stays until then', async () => {
  const { engine, body, find } = await open('10 at-rest');
  await soon(() => expect(body()).toBe('up to 10'));
  await engine.edit('a.ts', '20 at-rest');
  await soon(() => expect(find('a.ts', '.job-body').className).toContain('earlier'));
  expect(body()).toBe('up to 10');
  await soon(() => expect(body()).toBe('up to 20'));
  expect(find('a.ts', '.job-body').className).not.toContain('earlier');
});

test('what it has at once takes the place of what was there', async () => {
  const { engine, body, find } = await open('10 at-rest live');
  await soon(() => expect(body()).toBe('up to 10'));
  await engine.edit('a.ts', '20 at-rest live');
  await soon(() => expect(body()).toBe('roughly 20'));
  expect(find('a.ts', '.job-body').className).not.toContain('earlier');
  await soon(() => expect(body()).toBe('up to 20'));
});

test('on a static page it stands as it was seen last', async () => {
  const { body, page } = await open('10 at-rest');
  await soon(() => expect(body()).toBe('up to 10'));
  page.library = () => import('@observablehq/plot');
  const [cell] = await page.snapshot();
  expect(cell!.html).toContain('up to 10');
  expect(cell!.html).not.toContain('progress');
});
