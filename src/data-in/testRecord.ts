import { InputError } from '../base/inputError.ts';
import type { Axis, Sport } from '../base/units.ts';
import type { Stage, StageProtocol, StepTest } from '../physiology/stepTest.ts';
import { type Meaning, QUANTITIES } from './quantities.ts';
import { commonMinutes, MOST_STAGES } from './stages.ts';

interface RecordOptions {
  /** Goes before what the record says. */
  sport?: Sport;
  /** kg; goes before what the record says. */
  bodyMass?: number | null;
  protocol?: StageProtocol;
}

type Fields = Record<string, unknown>;
/** What tells one test from the others, as the sender wrote it. */
export type TestId = string | number | null;

const SPORTS: readonly Sport[] = ['cycling', 'running', 'rowing'];

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A value as a message can show it. */
function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

/** A number that may be missing: left out, null. */
function numberIn(fields: Fields, key: string, meaning: Meaning, where: string): number | null {
  const value = Object.hasOwn(fields, key) ? fields[key] : null;
  if (value === null || value === undefined) return null;
  const { range, unit } = QUANTITIES[meaning];
  const [low, high] = range;
  if (typeof value === 'number' && value >= low && value <= high) return value;
  const from = Number(low.toFixed(3));
  const what = `a number from ${from} to ${high}${unit === '' ? '' : ` ${unit}`}`;
  throw new InputError(`${where}"${key}": ${shown(value)}; expected ${what}`, { field: key });
}

function sportOf(record: Fields, axis: Axis, given: Sport | undefined): { sport: Sport; notes: string[] } {
  if (given) return { sport: given, notes: [] };
  if (record.sport === undefined || record.sport === null) {
    const sport = axis === 'power' ? 'cycling' : 'running';
    return { sport, notes: [`Sport not stated; taken as ${sport} because of "${axis}".`] };
  }
  const sport = SPORTS.find((word) => word === record.sport);
  if (sport) return { sport, notes: [] };
  throw new InputError(`"sport": ${shown(record.sport)}; expected ${SPORTS.join(', ')}`, { field: 'sport' });
}

function stagesIn(record: Fields): Fields[] {
  const { stages } = record;
  if (!Array.isArray(stages) || stages.length === 0)
    throw new InputError(`"stages": ${shown(stages)}; expected a list of stages`, { field: 'stages' });
  if (stages.length > MOST_STAGES)
    throw new InputError(`"stages": ${stages.length} of them; expected at most ${MOST_STAGES}`, {
      field: 'stages',
    });
  const odd = stages.findIndex((stage) => !isFields(stage));
  if (odd < 0) return stages;
  throw new InputError(`stage ${odd + 1}: ${shown(stages[odd])}; expected {"power", "lactate"} or the like`, {
    row: odd,
  });
}

/** Power in W or speed in km/h, the same of the two in every stage. */
function axisOf(stages: readonly Fields[]): Axis {
  const has = (key: Axis) => stages.some((stage) => Object.hasOwn(stage, key));
  if (has('power') && has('speed'))
    throw new InputError('stages with "power" and with "speed"; expected one of the two', { field: 'power' });
  if (has('power')) return 'power';
  if (has('speed')) return 'speed';
  throw new InputError('no "power" (W) and no "speed" (km/h) in the stages; expected one of the two', {
    field: 'power',
  });
}

function stageOf(fields: Fields, row: number, axis: Axis): Stage {
  const where = `stage ${row + 1}, `;
  const intensity = numberIn(fields, axis, axis, where);
  if (intensity === null)
    throw new InputError(`${where}"${axis}": nothing; expected a number in every stage`, {
      row,
      field: axis,
    });
  return {
    row,
    intensity,
    lactate: numberIn(fields, 'lactate', 'lactate', where),
    heartRate: numberIn(fields, 'heartRate', 'heartRate', where),
    rpe: numberIn(fields, 'rpe', 'rpe', where),
    minutes: numberIn(fields, 'minutes', 'duration', where),
  };
}

/** The id of a record, if it is one that can be given back. */
export function idIn(record: unknown): TestId {
  const id = isFields(record) && Object.hasOwn(record, 'id') ? record.id : null;
  return typeof id === 'string' || typeof id === 'number' ? id : null;
}

/**
 * A step test from an object as other programs write them: `sport`, `stages` with `power` (W) or `speed` (km/h),
 * `lactate` and perhaps `heartRate`, `rpe` and `minutes`; beside them perhaps `restLactate`, `lactateBefore`,
 * `stageMinutes` and `bodyMass`. Other fields are passed over.
 *
 * Missing   a measurement that is null or left out stays missing
 * Throws    InputError with the stage and the field
 */
export function testFromRecord(record: unknown, options: RecordOptions = {}): StepTest {
  if (!isFields(record))
    throw new InputError(`${shown(record)}; expected an object with "id", "sport" and "stages"`);
  const fields = stagesIn(record);
  const axis = axisOf(fields);
  const { sport, notes } = sportOf(record, axis, options.sport);
  if (sport === 'cycling' && axis === 'speed')
    throw new InputError('"speed" in a test of cycling; expected "power" in W', { field: 'speed' });
  if (sport === 'running' && axis === 'power')
    throw new InputError('"power" in a test of running; expected "speed" in km/h', { field: 'power' });
  const stages = fields.map((stage, row) => stageOf(stage, row, axis));
  if (stages.every((stage) => stage.lactate === null))
    throw new InputError('no lactate in any stage; expected at least one number', { field: 'lactate' });
  const { protocol = 'step' } = options;
  return {
    sport,
    axis,
    stages,
    restLactate: numberIn(record, 'restLactate', 'lactate', ''),
    stageMinutes: numberIn(record, 'stageMinutes', 'duration', '') ?? commonMinutes(stages),
    bodyMass: options.bodyMass ?? numberIn(record, 'bodyMass', 'mass', ''),
    ...(protocol !== 'step' && { protocol }),
    ...(protocol === 'lactate-minimum' && {
      lactateBefore: numberIn(record, 'lactateBefore', 'lactate', ''),
    }),
    notes,
  };
}
