import { prose } from '#hourline';

export default prose`
  # Reverse test

  The stages go down. The athlete begins clearly above the
  expected threshold, and each stage is a little easier than
  the last. Lactate rises as long as the effort is above the
  maximal lactate steady state, then falls; the peak in
  between is the estimate.

  **It starts out with invented readings.** Enter your own
  test below, in the order in which it was done. Stages
  that rise to the hardest one only lead in and are not
  counted.
`;
