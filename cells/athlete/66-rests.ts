import { prose, showReadingMap } from '#hourline';
import { display, readings } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';

export default [
  prose`
    ### What each answer rests on
    One reading changes, all others stay. A row with one dark
    field is a method that hangs on one drop of blood.`,
  showReadingMap(sampling, readings, { display }),
];
