import { describe, expect, test } from 'vitest';
import { breathe, gate, makeWorkbook, openWorkbook, type TestWorkbook } from './workbook.ts';

/** A library '#world' whose `wait(key)` stays open until the test opens it, and which keeps a log. */
function world() {
  const gates = new Map<string, ReturnType<typeof gate<unknown>>>();
  const log: string[] = [];
  const wait = (key: string) => {
    if (!gates.has(key)) gates.set(key, gate<unknown>());
    return gates.get(key)!.promise;
  };
  const open = async (key: string, value: unknown) => {
    void wait(key);
    gates.get(key)!.open(value);
    await breathe();
  };
  return { log, open, libraries: { '#world': () => ({ wait, log: (entry: string) => log.push(entry) }) } };
}

const waitFor = (key: string, name: string) =>
  `import { wait } from '#world'; export const ${name} = await wait('${key}');`;

/** Opens without waiting for cells that are still waiting themselves. */
async function begin(texts: Record<string, string>) {
  const outside = world();
  const { makeWorkbook } = await import('./workbook.ts');
  const workbook: TestWorkbook = makeWorkbook(texts, { libraries: outside.libraries });
  const finished = workbook.engine.run();
  await breathe();
  return { ...outside, workbook, finished };
}

describe('cells that wait', () => {
  //  left → sum ← right
  const TEXTS = {
    left: waitFor('left', 'left'),
    right: waitFor('right', 'right'),
    sum: `import { left } from './left.ts'; import { right } from './right.ts'; export default left + right;`,
  };

  test('independent cells wait side by side, and their reader runs once when both are there', async () => {
    const { workbook, open, finished } = await begin(TEXTS);
    expect(workbook.engine.phases()).toEqual(['running', 'running', 'stale']);
    await open('right', 2);
    expect(workbook.engine.phases()).toEqual(['running', 'done', 'stale']);
    await open('left', 1);
    await finished;
    expect(workbook.shown('sum')).toBe(3);
    expect(workbook.ran()).toBe('left right sum');
  });

  test('the page is told once that a cell runs and once that it is done', async () => {
    const { workbook, open } = await begin({ left: TEXTS.left });
    await open('left', 1);
    expect(workbook.told.map((s) => s.phase)).toEqual(['idle', 'running', 'done']);
  });

  test('for await at the top level waits too', async () => {
    const { workbook, open } = await begin({
      a: `import { wait } from '#world'; let n = 0; for await (const x of [wait('x'), 2]) n += x; export default n;`,
    });
    await open('x', 1);
    expect(workbook.shown('a')).toBe(3);
  });
});

describe('a newer edit while a cell runs', () => {
  test('drops the older run, whichever ends first', async () => {
    const { workbook, open, finished } = await begin({
      a: waitFor('old', 'a'),
      b: `import { a } from './a.ts'; export default a;`,
    });
    const edited = workbook.engine.edit('a.ts', waitFor('new', 'a'));
    await breathe();
    await open('new', 'new');
    await open('old', 'old');
    await Promise.all([edited, finished]);
    expect(workbook.shown('b')).toBe('new');
    expect(workbook.ran()).toBe('a b');
  });

  test('aborts its signal and runs its clean-ups', async () => {
    const text = (key: string) => `import { wait, log } from '#world';
import.meta.signal.addEventListener('abort', () => log('${key} aborted'));
import.meta.onStop(() => log('${key} stopped'));
await wait('${key}');`;
    const { workbook, open, log } = await begin({ a: text('old') });
    void workbook.engine.edit('a.ts', text('new'));
    await breathe();
    expect(log).toEqual(['old aborted', 'old stopped']);
    await open('old', 0);
    expect(workbook.status('a')).toBe('running');
    await open('new', 0);
    expect(workbook.ran()).toBe('a');
  });

  test('an error of a dropped run is not reported', async () => {
    const { workbook, open } = await begin({
      a: `import { wait } from '#world'; await wait('old'); throw new Error('old');`,
    });
    void workbook.engine.edit('a.ts', 'export default 1;');
    await breathe();
    await open('old', 0);
    expect(workbook.status('a')).toBe('done');
  });

  test('an upstream edit drops the runs downstream at once, so that none lands with mixed versions', async () => {
    // a → b → d ← a : d waits inside while a changes
    const { workbook, open, finished } = await begin({
      a: 'export const a = 1;',
      b: `import { a } from './a.ts'; export const b = a;`,
      d: `import { a } from './a.ts'; import { b } from './b.ts'; import { wait, log } from '#world';
await wait('d' + a); log(a + ' ' + b); export default [a, b];`,
    });
    void workbook.engine.edit('a.ts', 'export const a = 2;');
    await breathe();
    await open('d1', 0);
    expect(workbook.shown('d')).toBeUndefined();
    await open('d2', 0);
    await finished;
    expect(workbook.shown('d')).toEqual([2, 2]);
  });

  test('a control that a running cell has read starts it again; one it has not read yet does not', async () => {
    const control = (name: string) =>
      `export const ${name} = slider({ label: '${name}', min: 0, max: 9, value: 1 });`;
    const { workbook, open } = await begin({
      c: `import { slider } from '#toolkit'; ${control('early')} ${control('late')}`,
      a: `import { early, late } from './c.ts'; import { wait, log } from '#world';
log('start ' + early.value); await wait('go'); export default [early.value, late.value];`,
    }).then((begun) => ({ ...begun }));
    void workbook.engine.setControl('c.ts', 'late', 5);
    void workbook.engine.setControl('c.ts', 'early', 2);
    await breathe();
    void workbook.engine.setControl('c.ts', 'late', 6);
    await open('go', 0);
    expect(workbook.shown('a')).toEqual([2, 6]);
    expect(workbook.ran()).toBe('c a');
  });
});

describe('clean-up', () => {
  const CLEAN = `import { log } from '#world'; import { n } from './n.ts'; import.meta.onStop(() => log('stop ' + n)); log('run ' + n);`;

  test('of a finished run comes before the next one and when the cell goes', async () => {
    const { workbook, log } = await begin({ n: 'export const n = 1;', a: CLEAN });
    await workbook.engine.edit('n.ts', 'export const n = 2;');
    expect(log).toEqual(['run 1', 'stop 1', 'run 2']);
    await workbook.engine.remove('a.ts');
    expect(log.at(-1)).toBe('stop 2');
  });

  test('comes when the workbook is closed or another one opened', async () => {
    const { workbook, log } = await begin({ n: 'export const n = 1;', a: CLEAN });
    workbook.engine.load([]);
    expect(log.at(-1)).toBe('stop 1');
    const second = await begin({ n: 'export const n = 5;', a: CLEAN });
    second.workbook.engine.dispose();
    expect(second.log.at(-1)).toBe('stop 5');
  });

  test('that fails is a warning of its cell', async () => {
    const { workbook } = await begin({
      a: `import.meta.onStop(() => { throw new Error('no'); }); export default 1;`,
    });
    await workbook.engine.edit('a.ts', 'export default 2;');
    expect(workbook.state('a').warnings.map((w) => w.message)).toEqual([
      'The clean-up of this cell failed: no',
    ]);
    expect(workbook.shown('a')).toBe(2);
  });

  test('closing the workbook ends all waiting for it', async () => {
    const { workbook, finished, open } = await begin({ a: waitFor('never', 'a') });
    workbook.engine.dispose();
    await finished;
    const told = workbook.told.length;
    await open('never', 1);
    expect(workbook.told).toHaveLength(told);
  });
});

describe('libraries', () => {
  test('are asked for once, and cells that need them wait for them', async () => {
    let calls = 0;
    const library = gate<object>();
    const slow = () => {
      calls += 1;
      return library.promise;
    };
    const libraries = { slow };
    const opened = openWorkbook(
      {
        a: `import { x } from 'slow'; export default x;`,
        b: `import * as slow from 'slow'; export default slow.x;`,
      },
      { libraries },
    );
    await breathe();
    library.open({ x: 7 });
    const workbook = await opened;
    expect([workbook.shown('a'), workbook.shown('b'), calls]).toEqual([7, 7, 1]);
  });

  test('default and named imports, and import() in the middle', async () => {
    const libraries = { lib: () => ({ default: 'whole', part: 'part' }) };
    const workbook = await openWorkbook(
      { a: `import whole, { part } from 'lib'; export default [whole, part, (await import('lib')).part];` },
      { libraries },
    );
    expect(workbook.shown('a')).toEqual(['whole', 'part', 'part']);
  });

  test('one that cannot be loaded fails its cells only', async () => {
    const libraries = { gone: () => Promise.reject(new Error('not found')) };
    const workbook = await openWorkbook({ a: `import 'gone';`, b: 'export default 1;' }, { libraries });
    expect(workbook.status('a')).toBe('failed: The library gone could not be loaded: not found');
    expect(workbook.status('b')).toBe('done');
  });

  describe('of which a part is there early', () => {
    const early = { '#two': { near: 'near' } };
    const texts = {
      a: `import { near } from '#two';\nexport default near;`,
      b: `import { near, far } from '#two';\nexport default near + far;`,
      c: `import * as all from '#two';\nexport default Object.keys(all).length;`,
      d: `import { nowhere } from '#two';`,
    };

    test('whoever needs no more runs at once, the others when the whole is there', async () => {
      const whole = gate<object>();
      const workbook = makeWorkbook(texts, { early, libraries: { '#two': () => whole.promise } });
      const run = workbook.engine.run();
      await breathe();
      expect(workbook.status('a')).toBe('done');
      expect(workbook.state('b').runs + workbook.state('c').runs).toBe(0);
      whole.open({ near: 'near', far: 'far' });
      await run;
      expect(['a', 'b', 'c'].map(workbook.shown)).toEqual(['near', 'nearfar', 2]);
      expect(workbook.state('a').runs).toBe(1);
      expect(workbook.status('d')).toBe("failed: '#two' does not export 'nowhere'.");
    });

    test('when the rest cannot be loaded, it still serves', async () => {
      const libraries = { '#two': () => Promise.reject(new Error('not found')) };
      const workbook = await openWorkbook(texts, { early, libraries });
      expect(workbook.status('a')).toBe('done');
      for (const cell of ['b', 'c', 'd']) {
        expect(workbook.status(cell)).toBe('failed: The library #two could not be loaded: not found');
      }
    });
  });
});
