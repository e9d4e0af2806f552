import {
  lessonAnswer,
  prose,
  showIncrements,
} from '#hourline';
import { athlete } from './12-athlete.ts';
import { protocol } from './20-test.ts';

const steps =
  athlete.type.axis === 'power'
    ? [15, 20, 25, 30, 35, 40, 45, 50]
    : [0.4, 0.6, 0.8, 1, 1.2, 1.4, 1.6];

export default [
  prose`
    ## 5. What does the increment do to answers in stages?
    Some methods answer with one of the stages. The same
    athlete on tests with small steps and with large ones:
    which line is ragged, and which is smooth?`,
  showIncrements(athlete, {
    protocol,
    methods: [
      'first-rise',
      'baseline-plus-0.5',
      'second-rise',
      'dmax-exponential',
    ],
    increments: steps,
  }),
  lessonAnswer('increment'),
];
