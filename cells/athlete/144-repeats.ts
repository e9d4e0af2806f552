import { folded, pairGrid, prose } from '#hourline';

export const repeats = pairGrid({
  label: 'Thresholds of tests done twice within days',
  csv: 'athlete,first,second\n1\n2\n3\n4\n5\n',
});
export const meters = pairGrid({
  label: 'The same samples by two meters, mmol/L',
  csv: 'sample,first,second\n1\n2\n3\n4\n5\n',
});

export default folded(
  'How your own tests repeat, and two meters',
  prose`
    Five athletes or more, tested twice within days: what they
    differ by takes the place of the published figure. And
    what two meters make of the same samples.`,
  repeats,
  meters,
);
