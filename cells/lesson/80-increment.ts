import { folded, prose, showIncrements } from '#hourline';
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
  folded(
    'Answer',
    prose`
      An answer that is a stage can lie only where a stage
      is. With large steps it jumps with the place of the
      stages, which nobody chose with care. With small steps
      a rise from stage to stage stays small, so that *more
      than 0.4* or *0.5 mmol/L* comes later: the answer
      creeps upward, though the athlete is the same. A rise
      above the baseline, read between the stages, hardly
      moves. Dmax reads between them too, but goes with the
      last stage, wherever that happens to fall.

      Never quote such an answer with decimals. It means:
      this stage, or anything up to the next.`,
  ),
];
