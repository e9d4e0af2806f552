import { prose } from '#hourline';

export default prose`
  ## How far to trust it

  - The interval holds only what the meter and the reckoning
    may be off by. That the minimum follows the intensity at
    which the stages begin is not in it: with an easier start
    it comes out lower. Compare only tests that start alike.
  - The sprints must raise lactate well above the minimum, and
    the rest must be long enough for it to spread.
  - Stages on both sides of the minimum are a must: where it
    lies near the first or the last stage, no answer is given.
  - Confirm it before it decides anything: a bout of half an
    hour at that intensity, with lactate at minutes 10 and 30.
`;
