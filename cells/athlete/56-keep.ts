import {
  figuresOf,
  keeper,
  onlyLive,
  prose,
  settingWords,
} from '#hourline';
import { reading } from './40-curve.ts';
import { sampling } from './65-sensitivity.ts';

export const setting = settingWords(reading);
export const kept = keeper({
  label: 'Keep these figures',
  offer: figuresOf(sampling, setting),
  about: {
    says: `Notes every method’s figure as it is now; nothing
      else changes.`,
    source: 'our rule',
  },
});

export default onlyLive(
  prose`
    ### Two settings side by side
    Keep the figures as they are. Then choose another curve or
    baseline, move a reading, or change what the last stage
    counts for: below you see which methods follow.`,
  kept,
);
