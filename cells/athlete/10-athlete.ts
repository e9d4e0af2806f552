import {
  effortChoice,
  lastStageChoice,
  meterChoice,
  numberField,
  paceChoice,
  prose,
  sportChoice,
  textField,
} from '#hourline';

export const code = textField({ label: 'Athlete', value: 'C-01', help: 'A code is safer than a name.' });
export const sport = sportChoice('cycling');
export const bodyMass = numberField({ label: 'Body mass', unit: 'kg', min: 20, max: 250, value: 70 });
export const stageMinutes = numberField({ label: 'Stage length', unit: 'min', min: 0.5, max: 30, value: 4 });
export const effort = effortChoice('yes');
export const lastStage = lastStageChoice('credited');
export const meter = meterChoice('handheld');
export const pace = paceChoice('min/km');

export default prose`
  ## The athlete and the test
  Thresholds belong to a protocol. Compare only tests with the same stages, steps, pauses, meter and finger.`;
