import { knownAthlete, showTruth } from '#hourline';
import { kind } from './10-kind.ts';

export const athlete = knownAthlete(kind.value);

export default showTruth(athlete);
