import { folded, prose } from '#hourline';

export default [
  prose`
    ### Before you read on
    - Which method for the second threshold is nearest, and
      is it still, when you change the athlete above?
    - Take the athlete with the low glycolytic rate. Which
      method falls silent?
    - Which has the longest bar? What do the methods with
      long bars have in common?`,
  folded(
    'Answer',
    prose`
      - None is nearest for all. Two athletes who take up the
        same oxygen have a different MLSS *and* a differently
        bent curve; a rule tuned to one misses the other.
      - With a low glycolytic rate lactate stays low until
        shortly before the end: 4 mmol/L come late or never.
        A method that keeps silent then is honest.
      - Long bars belong to methods that look where the curve
        is nearly flat (a small error upward moves the answer
        far to the side), and to those that jump by a
        stage.`,
  ),
];
