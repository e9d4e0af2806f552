import type { ErrorModel } from '../physiology/errorModel.ts';
import { type ErrorSource, SOURCES } from '../physiology/varianceShares.ts';
import { type Toggle, toggle } from '../view/controls.ts';
import { aboutError } from './errorControls.ts';

/** Sources of error in a word or two. */
export const SOURCE_NAMES: Record<ErrorSource, string> = {
  repeatability: 'repeatability',
  rounding: 'display',
  delay: 'time of the sample',
  contamination: 'sweat',
  intensityJitter: 'intensity held',
  gain: 'calibration, in proportion',
  offset: 'calibration, added',
  intensityScale: 'scale of the device',
};

/** A switch that takes one source of error out of the reckoning. */
interface SourceSwitch extends Toggle {
  source: ErrorSource;
}

/** A switch that makes one source of error count, or counts it as exact. */
export const sourceSwitch = (source: ErrorSource, value = true): SourceSwitch => ({
  ...toggle({
    label: SOURCE_NAMES[source],
    value,
    about: {
      says: `Off: counts as exact in what follows. ${aboutError(source).says}`,
      source: 'its size stands with its slider above',
    },
  }),
  source,
});

/** The error model with the sources whose switch is off at 0; a group may be all that a cell exports. */
export function switchedErrors(error: ErrorModel, ...groups: readonly object[]): ErrorModel {
  const left = { ...error };
  for (const { source, value } of groups.flatMap((group) => Object.values(group).filter(isSourceSwitch))) {
    if (value) continue;
    for (const term of SOURCES[source]) if (term !== 'contaminationSize') left[term] = 0;
  }
  return left;
}

const isSourceSwitch = (item: unknown): item is SourceSwitch =>
  typeof item === 'object' && item !== null && 'source' in item && 'control' in item;
