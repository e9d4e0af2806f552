import { prose } from '#hourline';

export default prose`
  # How methods differ: a lesson

  Nobody knows the true threshold of an athlete. Here it is
  known, because the athletes are simulated: equations for
  muscle and blood, made to behave like people. So each
  method can be told how far it is off.

  You will do four things:

  1. choose an athlete and a test, and see every method
     against the truth;
  2. test a whole class, and see what is the method's own;
  3. answer five questions, each with a picture to play with.
     Think first; the answers are folded;
  4. keep what matters, in five points.

  Everything here is **a model, not people**. It shows *why*
  methods differ. By how much they do in people is printed
  beside it where it is known. It takes twenty minutes.
`;
