import { from, op } from 'arquero';
import {
  folded,
  methodRows,
  prose,
  showAgreement,
  tableOf,
} from '#hourline';
import { display } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';

const spread = from(methodRows(sampling, display))
  .groupby('claim')
  .rollup({
    lowest: op.min('rounded'),
    highest: op.max('rounded'),
  });
const headings = {
  claim: 'Claim',
  lowest: 'Lowest',
  highest: 'Highest',
};

export default [
  prose`
    ## Do the methods agree?
    They look for different things, so no average of all is
    given: it would be nobody's threshold.`,
  showAgreement(sampling, { display }),
  folded(
    'Their spread as a table',
    tableOf(
      `Spread of the methods, ${display.unit}`,
      spread.objects(),
      headings,
      { decimals: display.unit === 'W' ? 0 : 1 },
    ),
  ),
];
