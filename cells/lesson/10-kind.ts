import {
  prose,
  simulatedAthleteChoice,
  term,
} from '#hourline';

export const kind = simulatedAthleteChoice('cyclist');

export default [
  prose`
    ## An athlete whose truth is known
    The ${term('mlss', 'maximal lactate steady state')}
    (MLSS) is the hardest
    even effort at which lactate rises by no more than 1
    mmol/L from minute 10 to minute 30. In people it takes
    several days to find. Here it is computed.`,
  kind,
];
