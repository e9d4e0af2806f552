import { prose } from '#hourline';

export default prose`
  # Lactate minimum test

  Sprints fill the blood with lactate, a rest of some eight
  minutes lets it spread, then stages rise from easy to hard.
  While the effort is easy, lactate is cleared faster than it
  appears and falls; where it stops falling and begins to rise
  lies the lactate minimum, taken as an estimate of the
  maximal lactate steady state.

  **It starts out with invented readings.** Enter your own
  test below: the lactate after the rest goes into a row
  marked recovery above the first stage.
`;
