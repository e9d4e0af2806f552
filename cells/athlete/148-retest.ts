import {
  folded,
  inShort,
  sayRetest,
  shiftTable,
  showRetest,
  whyLeftOut,
} from '#hourline';
import { stages } from './20-stages.ts';
import { display } from './25-readings.ts';
import { lt1, lt2 } from './70-choice.ts';
import { earlier } from './140-earlier.ts';
import { compared, now } from './147-compared.ts';

const how = { display, lt1: lt1.value, lt2: lt2.value };

export default compared.length === 0
  ? whyLeftOut('The earlier test', earlier, stages)
  : [
      ...compared.map((each) =>
        inShort(sayRetest(each, how)),
      ),
      showRetest(now, compared, how),
      ...compared.map((each) =>
        folded('Method by method', shiftTable(each, display)),
      ),
    ];
