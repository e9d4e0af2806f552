import { prose, showMethods } from '#hourline';
import { secondRise } from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## The second of two rises
    Stage by stage: a first step of 0.5 mmol/L or more, then a
    greater one. Between the two lies the threshold. Small
    steps of intensity make small rises, so the same athlete
    on finer stages gets a later answer.`,
  secondRise,
  showMethods(study, 'second-rise'),
];
