import {
  folded,
  notice,
  sayRetest,
  shiftTable,
  showRetest,
} from '#hourline';
import { display } from './25-readings.ts';
import { lt1, lt2 } from './70-choice.ts';
import { compared, now } from './147-compared.ts';

const how = { display, lt1: lt1.value, lt2: lt2.value };

export default compared.length === 0
  ? notice('note', 'No earlier test to compare with', '')
  : [
      ...compared.map((each) => sayRetest(each, how)),
      showRetest(now, compared, how),
      ...compared.map((each) =>
        folded('Method by method', shiftTable(each, display)),
      ),
    ];
