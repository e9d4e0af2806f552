import { prose, sensitivityTable } from '#hourline';
import { display, readings } from './25-readings.ts';
import { chosen } from './48-study.ts';

export default [
  prose`
    ## What moves each of them?
    All readings a little higher, all in proportion, or one
    left out. Where a method rests on one reading, that
    reading is named.`,
  sensitivityTable(chosen, readings, { display }),
];
