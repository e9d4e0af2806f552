import {
  folded,
  goalTable,
  notice,
  showZones,
  timeInZone,
  trainingIn,
  whyLeftOut,
  zoneThresholdsOf,
} from '#hourline';
import { stages } from './20-stages.ts';
import { heartRates, test } from './25-readings.ts';
import { sampling } from './65-sensitivity.ts';
import { lt1, lt2 } from './70-choice.ts';
import { bands } from './80-bands.ts';
import { week } from './130-week.ts';

const list = trainingIn(week, stages, test);
const chosen = { lt1: lt1.value, lt2: lt2.value };
const thresholds = zoneThresholdsOf(sampling, {
  ...chosen,
  heartRates,
});
export const zones =
  list && timeInZone(list.pieces, thresholds);

function result() {
  if (list === null)
    return whyLeftOut('The training', week, stages);
  if (bands.refused !== null)
    return notice('caution', 'No zones', bands.refused);
  return [
    showZones(zones, list.pieces),
    folded('By the goal of sessions', goalTable(list.pieces)),
  ];
}
export default result();
