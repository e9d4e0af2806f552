import { describe, expect, test } from 'vitest';
import { folded, isView, prose, stack } from '../../src/view/view.ts';

describe('prose', () => {
  test('indentation that all lines share is removed', () => {
    const view = prose`
      ## Title
      Text
        - nested
    `;
    expect(view.markdown).toBe('## Title\nText\n  - nested');
  });

  test('text that begins on the first line keeps it', () => {
    expect(
      prose`One
      two`.markdown,
    ).toBe('One\ntwo');
  });

  test('a value of several lines does not disturb the indentation around it', () => {
    const list = '- a\n- b';
    const view = prose`
      Before

      ${list}

      After`;
    expect(view.markdown).toBe('Before\n\n- a\n- b\n\nAfter');
  });

  test('values are put in as text', () => {
    expect(prose`${1} and ${'x'}`.markdown).toBe('1 and x');
    expect(prose``.markdown).toBe('');
  });
});

test('stacks are views and keep what they hold, folded or not', () => {
  const inner = prose`a`;
  expect(stack(inner, null)).toEqual({ view: 'stack', items: [inner, null] });
  expect(folded('More', inner)).toEqual({ view: 'stack', items: [inner], folded: 'More' });
  expect(isView(stack())).toBe(true);
  expect(isView({ view: 1 })).toBe(false);
});
