import { prose } from '#hourline';

export default prose`
  ## How far to trust it

  - The interval holds only what the meter and the reckoning
    may be off by. Lactate in the blood lags behind the
    effort: the peak comes late, so with short stages, or
    large steps down, it lies above the steady state.
  - The start must be clearly above the threshold, or lactate
    only falls; not so hard that the athlete cannot go on, or
    it only rises.
  - Few have used this test; what it says of one athlete is
    not well known.
  - Confirm it before it decides anything: a bout of half an
    hour at that intensity, with lactate at minutes 10 and 30.
`;
