import { prose } from '#hourline';

export default prose`
  ## How far to trust it

  - The answer is one of the bouts: the true limit lies
    between it and the next harder one. Smaller steps tell
    more, and cost more days.
  - The limit of 1.0 mmol/L in 20 minutes is a convention.
    Another one gives another steady state.
  - Days differ: sleep, food, heat and training before shift
    lactate. Bouts count when the athlete was rested and had
    eaten as usual, a day or two apart.
  - A bout given up early counts as not steady, whatever
    lactate did.
`;
