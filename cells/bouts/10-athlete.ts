import {
  bodyMassField,
  meterChoice,
  prose,
  sportChoice,
} from '#hourline';

export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(72);
export const meter = meterChoice('handheld');

export default [prose`## The test`, [sport, bodyMass, meter]];
