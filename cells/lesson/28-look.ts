import { lessonAnswer, prose } from '#hourline';

export default [
  prose`
    ### Before you read on
    - Which method for the second threshold is nearest, and
      is it still, when you change the athlete above?
    - Take the athlete with the low glycolytic rate, and look
      at *No answer* in the table. Which methods keep silent
      more often than before?
    - Which has the longest bar? What do the methods with
      long bars have in common?`,
  lessonAnswer('athletes'),
];
