import { folded, prose, type StackView } from '../view/view.ts';

/**
 * Answers to the questions of the lesson. They are here and not in the cells because a cell's code stands beside what it
 * shows: an answer there would be read before the question was thought about.
 */
const ANSWERS = {
  athletes: prose`
    - None is nearest for all. Athletes who take up the same oxygen have a different MLSS *and* a differently bent curve; a
      rule that suits one misses the other.
    - With a low glycolytic rate lactate stays low until shortly before the end. A level of 4 mmol/L is reached in the last
      stage or not at all: let the meter read a little low, and there is no answer. Methods that count rises, or start from
      the first one, keep silent more often too. Silence is honest: a figure would have to be read beyond the test.
    - Long bars belong to methods that look where the curve is nearly flat (a small error upward moves the answer far to the
      side), and to those that jump by a stage.`,
  class: prose`
    Two columns tell two things apart. *No meter errors*: what differs between athletes there belongs to the method, and no
    better meter takes it away. *One test with the meter* holds the same and the errors of the meter; where ± is
    larger there, the meter has added to it. It adds little for methods that read where the curve is steep, and most for
    those that read where it is flat. Where the mean moves as well, errors do not cancel out: of many rises the first one
    counts, of many readings the lowest, and an error makes either come sooner.

    Between them stands what was found in people, where we know of it. The sign and the order of size can be compared; the
    figures cannot, for those people had other tests.`,
  'stage length': prose`
    Blood lags behind muscle. When a stage is short, blood is read before it has caught up with the intensity: the curve
    lies too far to the right, and any fixed level is reached late. The longer the stage, the further the curve moves to the
    left. Dmax looks at the *shape* between the ends; the shape changes less than the place.

    So 4 mmol/L is no property of the athlete alone. It was the average of a group on stages of a certain length (Heck et
    al. 1985, Int J Sports Med 6:117–130: 4.0 for 5-min stages, about 3.5 for 3-min stages on a treadmill; from memory).
    Compare only tests with the same stages.`,
  calibration: prose`
    A calibration error stretches the picture upward, curve and chord alike. The point of the curve that is farthest below
    its chord stays above the same intensity: there the curve is as steep as the chord, and both slopes are stretched by the
    same factor. A fixed amount lifts both and changes no slope.

    A fixed value does not stretch along: 4 mmol/L on a meter that reads 15 % high are 3.5 in truth. A rise above the
    athlete’s own baseline is free of the fixed amount, but not of the factor.

    The catch: Dmax cares most about where the test begins and ends. Move the start of the test and watch it go.`,
  'one reading': prose`
    It depends on which. A method that reads straight lines between neighbours moves only when one of the two readings
    beside its answer does. A method that lays a curve through all of them moves a little with each. Dmax hangs on the last
    reading, methods above a baseline on the lowest ones, and a first rise may jump by whole stages when a single low
    reading goes up.

    So before you believe a threshold, ask which readings it rests on, and look at those again.`,
  'above the MLSS': prose`
    Every effort starts from rest, and lactate takes minutes to come up. In the first two minutes the four lines lie
    together: what is felt then is the start, not the intensity. Then they part. Below the MLSS a line bends to its level.
    Above, it climbs on, and every later rep begins high. The bill comes late, and then it may end the session.

    Look at the level, not only at the drift: here the reps at 105 % end nearly as high as one another, and all are too
    hard. So take a reading at the end of the second and of the last rep, not before minute six, and keep something in
    reserve: a session that could have gone on for another rep was not too hard.

    From *just right* to *too hard* it is a few per cent, and that is what many a method is off by. This is why bias
    matters.`,
  increment: prose`
    An answer that is a stage can lie only where a stage is. With large steps it jumps with the place of the stages, which
    nobody chose with care. With small steps a rise from stage to stage stays small, so that *more than 0.4 mmol/L* comes
    later: the answer creeps upward, though the athlete is the same. A rise above the baseline, read between the stages,
    hardly moves. Dmax reads between them too, but goes with the last stage, wherever that happens to fall.

    Never quote an answer that is a stage with decimals. It means: this stage, or anything up to the next.`,
} as const;

type LessonQuestion = keyof typeof ANSWERS;

/**
 * The answer to a question of the lesson, folded until the reader has thought about it.
 *
 * Throws    when there is no such question
 */
export function lessonAnswer(question: LessonQuestion): StackView {
  const answer = ANSWERS[question];
  if (answer) return folded('Answer', answer);
  throw new Error(`the lesson has no question '${question}'; there are ${Object.keys(ANSWERS).join(', ')}`);
}
