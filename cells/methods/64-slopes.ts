import { prose, showMethods } from '#hourline';
import { bisector, fixedSlope } from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## Where the curve is as steep as a given line
    A slope is so many mmol/L per km/h; for watts none is
    published, and the method keeps silent rather than guess.
    Enter a slope of your own among the choices, such as 0.05
    for a bicycle, to see the line. The second one halves the
    angle of two tangents: it belongs to history and is off.`,
  [fixedSlope, bisector],
  showMethods(study, 'fixed-slope', 'bisector'),
];
