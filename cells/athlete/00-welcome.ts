import { prose } from '#hourline';

export default prose`
  # What can this step test tell?

  A cyclist rode a step test: a few minutes a stage, each
  harder than the last, a drop of blood after each. This
  workbook goes from that table to the two lactate thresholds,
  to how far each figure can be trusted, and to training
  bands. **The athlete and all readings are invented.**

  **To use your own test:** change the athlete, then paste or
  drop a table of stages, or type into it. Everything below
  follows at once. The short answer for the athlete stands at
  the end.

  The code of every part is beside it. Change a line and see
  what happens; nothing can break that a reset does not mend.
`;
