import { prose, showAgreement } from '#hourline';
import { display } from './25-readings.ts';
import { chosen } from './48-study.ts';

export default [
  prose`
    ## What have they in common?
    Methods that agree here need not be right together: those
    that read the same curve share its errors. Those that
    disagree beyond the errors of the test look for different
    things. So do not average; choose one for what it claims,
    before the test, and keep to it.`,
  showAgreement(chosen, { display }),
];
