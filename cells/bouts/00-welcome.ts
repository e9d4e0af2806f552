import { prose, sayWhoseData } from '#hourline';
import { bouts } from './20-bouts.ts';

export default prose`
  # Constant-load bouts

  The yardstick of the second threshold: several efforts of
  half an hour at constant intensity, each on a day of its
  own. In the hardest one in which lactate still levels off
  lies the maximal lactate steady state: it may rise by no
  more than 1.0 mmol/L from minute 10 to minute 30.

  ${sayWhoseData(bouts)} Enter your
  own bouts below, a row for each sample. A bout that had to
  be given up says no under completed.
`;
