import { prose, sayWhoseData } from '#hourline';
import { stages } from './20-stages.ts';

export default prose`
  # Methods, one by one

  One test, one curve, and more than twenty published ways to
  read a threshold off it. Each way looks for something else.
  Here each is shown at work on the same readings: what it
  draws, where it lands, how far that can be trusted, and why
  it sometimes keeps silent.

  Three questions to ask of each:

  - **What does it look for?** A level of lactate, a rise
    above the athlete's own baseline, a bend, a slope, or a
    distance.
  - **Which readings does it hang on?** The first, the last,
    or one in between.
  - **What would change it** that is not the athlete: the
    length of the stages, the meter, the end of the test?

  ${sayWhoseData(stages)} Change any of
  them, or enter your own test, and every picture follows.
`;
