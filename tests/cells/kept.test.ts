import { expect, test } from 'vitest';
import { methodById } from '../../src/physiology/methods/index.ts';
import type { KeptFigures } from '../../src/toolkit/keptFigures.ts';
import type { Keeper } from '../../src/view/controls.ts';
import type { StackView } from '../../src/view/view.ts';
import { shown, textsOf } from './shown.ts';
import { moveControls } from './workbook.ts';

test('figures that are kept stand beside those of another setting, and can be let go', async () => {
  const { engine, text } = await shown();
  expect(text.get('57-kept')).toContain('*Nothing is kept yet.*');
  // A share page keeps nothing: it goes without the offer, and without the word that nothing is kept.
  const isOnlyLive = (cell: string) => (engine.state(`${cell}.ts`).shown as StackView).onlyLive === true;
  expect(['56-keep', '57-kept'].map(isOnlyLive)).toEqual([true, true]);

  const said = () => textsOf(engine.state('57-kept.ts').shown).join('\n');
  const { control } = engine.state('56-keep.ts').controls.find(({ name }) => name === 'kept')!;
  const { offer } = control as Keeper<KeptFigures>;
  await moveControls(engine, { '56-keep': { kept: offer } });
  expect(said()).toContain('No method moves.');
  expect(isOnlyLive('57-kept')).toBe(false);

  await moveControls(engine, { '35-model': { model: 'cubic' } });
  expect(said()).toMatch(
    /Kept: exponential plus constant, .+\. Now: cubic polynomial, .+\. \d+ of \d+ methods move/i,
  );
  // What does not read the curve stays.
  const rows = said().split('\n');
  expect(rows[rows.indexOf(methodById('log-log').name) + 3]).toBe('stays');

  await moveControls(engine, { '56-keep': { kept: null } });
  expect(said()).toContain('*Nothing is kept yet.*');
});

test('what was not kept by this cell is refused in a sentence', async () => {
  const { engine } = await shown();
  await moveControls(engine, { '56-keep': { kept: { figures: 'many' } } });
  expect(engine.state('57-kept.ts').problem?.message).toBe(
    'What is kept here are no figures: keep them anew.',
  );
});

test('the picked method is shown with its construction', async () => {
  const { engine, text } = await shown();
  expect(text.get('55-found')).toMatch(/^Modified Dmax: \d+/m);
  await moveControls(engine, { '54-which': { which: 'fixed-4.0' } });
  expect(textsOf(engine.state('55-found.ts').shown).join('\n')).toMatch(/^Fixed 4\.0: \d+/m);
});
