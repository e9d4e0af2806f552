import {
  incrementSlider,
  prose,
  stageLengthSlider,
  startSlider,
} from '#hourline';
import { athlete } from './12-athlete.ts';

export const stageMinutes = stageLengthSlider(4);
export const start = startSlider(athlete);
export const increment = incrementSlider(athlete);

export default [
  prose`
    ## A step test
    Stage by stage a little harder, a drop of blood at the
    end of each, until the athlete has to stop. You set
    how.`,
  [stageMinutes, start, increment],
];
