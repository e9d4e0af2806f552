import { expect, test } from 'vitest';
import { choice } from '../../src/view/controls.ts';

const OPTIONS = [
  { value: 'cubic', label: 'cubic polynomial' },
  { value: 'exponential', label: 'exponential plus constant' },
];

test('a choice that starts at none of its options says which there are', () => {
  expect(choice({ label: 'Curve', value: 'cubic', options: OPTIONS }).value).toBe('cubic');
  expect(() => choice({ label: 'Curve', value: 'exponentail', options: OPTIONS })).toThrow(
    '"exponentail" is no choice for Curve; expected cubic, exponential',
  );
});
