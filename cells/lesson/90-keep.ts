import { prose } from '#hourline';

export default prose`
  ## What to keep
  1. A threshold is an answer to a question. Ask what a
     method looks for before you ask where it lands.
  2. **Bias** is the method's and the test's; **scatter** is
     the meter's and the hand's. Repeating a test shrinks
     scatter, never bias.
  3. Compare only tests with the same stages, start,
     increment and meter; keep to one method.
  4. Look which readings an answer rests on.
  5. What decides is the steady state itself: hold an even
     effort near the estimate for 30 minutes, and take
     lactate at minutes 10 and 30.

  **The model.** Lactate made in muscle after Mader & Heck
  1986 (Int J Sports Med 7 Suppl 1:45–65) and Mader 2003 (Eur
  J Appl Physiol 88:317–338), exchanged between muscle and
  blood after Zouloumian & Freund 1981 (Eur J Appl Physiol
  46:135–147), equations and constants from memory, with
  additions of our own. It does not know pain, heat, fuel or
  fatigue; above the MLSS its lactate levels off too early,
  and between reps it clears lactate faster than people do.
  Take from it why methods differ, not by how many watts.
`;
