import { from, op } from 'arquero';
import { greatest } from 'd3-array';
import { disagreements, methodRows, prose, tableOf } from '#hourline';
import { display } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';

const spread = from(methodRows(sampling))
  .groupby('claim')
  .rollup({ methods: op.count(), lowest: op.min('intensity'), highest: op.max('intensity') });
const headings = { claim: 'Claim', methods: 'Methods', lowest: 'Lowest', highest: 'Highest' };
const decimals = display.unit === 'W' ? 0 : 1;
const pairs = disagreements(sampling);
const widest = greatest(pairs, (pair) => pair.difference);
const most = widest ? `, most of all ${widest.lower} and ${widest.higher}` : '';

export default [
  prose`
    ## Do the methods agree?
    Pairs of methods for the same threshold that lie further apart than the errors explain: ${pairs.length}${most}.
    They look for different things, so no average of all is given: it would be nobody's threshold.`,
  tableOf(`Spread of the methods, ${display.unit}`, spread.objects(), headings, { decimals }),
];
