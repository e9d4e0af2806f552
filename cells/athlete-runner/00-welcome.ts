import { prose } from '#hourline';

export default prose`
  # What can this step test tell a half-marathon runner?

  A recreational runner ran a step test on a treadmill: a few
  minutes a stage, each faster than the last, a drop of blood
  after each. This workbook goes from that table to the two
  lactate thresholds, to how far each figure can be trusted,
  and to training bands in speed, pace and heart rate. **The
  athlete and all readings are invented.**

  **To use your own test:** change the athlete, then paste or
  drop a table of stages, or type into it. Everything below
  follows at once. The short answer for the athlete stands at
  the end.

  Thresholds are found on speed; pace is only worked out at
  the end.
`;
