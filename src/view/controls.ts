import type { GridMark, GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import type { Sport } from '../base/units.ts';

/**
 * Controls are values a cell exports. The engine gives each importing cell its own tracked view of the control:
 * reading `.value` there makes that cell run again when the reader moves the control. In the cell that makes
 * the control, `.value` is the starting value.
 */
export type Control = Slider | NumberField | Choice | Toggle | TextField | Keeper | Grid;

/** What something means, and who says so. */
export interface Explanation {
  /** One sentence. */
  says: string;
  /** A paper, "common practice", or "our rule"; "(from memory)" when nobody here has read it. */
  source: string;
}

interface Labelled {
  label: string;
  /** Always in sight: what to enter, in a few words. */
  help?: string;
  /** Shown when asked for. */
  about?: Explanation;
}

/** A number on a line; `value` stays between `min` and `max` and on a `step`. */
export interface Slider extends Labelled {
  control: 'slider';
  value: number;
  min: number;
  max: number;
  step: number;
  unit: string;
}

/** A number to be typed, which may be left out. */
export interface NumberField extends Labelled {
  control: 'number';
  /** null while empty. */
  value: number | null;
  min: number;
  max: number;
  step: number;
  unit: string;
}

/** One of a few options. */
export interface Choice<T extends string = string> extends Labelled {
  control: 'choice';
  value: T;
  options: readonly { value: T; label: string }[];
}

/** Something that is so or not. */
export interface Toggle extends Labelled {
  control: 'toggle';
  value: boolean;
}

/** Text to be typed. */
export interface TextField extends Labelled {
  control: 'text';
  value: string;
  /** More than one line when above 1. */
  lines: number;
}

/** A button that keeps what the cell offers now, for comparison with what comes later. */
export interface Keeper<T = unknown> extends Labelled {
  control: 'keeper';
  /** What was kept, as plain as JSON; null for nothing. */
  value: T | null;
  /** What would be kept now. */
  offer: T;
}

/**
 * What a table makes of the recording of a device: a row for each stage, for each rep, or all of it with its elapsed time.
 */
export type RecordingUse = 'stages' | 'reps' | 'all';

/** What each row of a table is: that decides what its columns may be said to hold. */
export interface RowsRead {
  of: 'stages' | 'reps' | 'efforts' | 'training' | 'bouts' | 'recovery' | 'pairs';
  sport?: Sport;
  protocol?: 'step' | 'lactate-minimum' | 'reverse';
}

/** An editable table that also takes a pasted, dropped or picked file. */
export interface Grid extends Labelled {
  control: 'grid';
  value: GridValue;
  /** Turns a file's or the clipboard's text into a table; throws InputError, and then nothing changes. */
  read(text: string, fileName?: string): GridValue;
  /**
   * What is wrong or noteworthy in the table as it stands, for marking headings and entries while typing.
   * `row` -1 is the heading row.
   */
  check(value: GridValue): GridMark[];
  /** Headings offered when a column is added. */
  suggestions: string[];
  /** Without it, a recording is no table for this. */
  recording?: RecordingUse;
  /** Without it, nobody can say what the columns of a table hold but in their headings. */
  rows?: RowsRead;
  /** Another table that may be taken over, and what it is called: 'the test at the top'. */
  offer?: { from: string; value: GridValue };
}

type Spec<C extends Control, Optional extends keyof C = never> = Omit<C, 'control' | Optional> &
  Partial<Pick<C, Optional>>;

/** A number on a scale. */
export const slider = (spec: Spec<Slider, 'step' | 'unit'>): Slider => ({
  control: 'slider',
  step: (spec.max - spec.min) / 100,
  unit: '',
  ...spec,
});

/** A number to type; null while empty. */
export const numberField = (spec: Spec<NumberField, 'step' | 'unit' | 'min' | 'max'>): NumberField => ({
  control: 'number',
  min: Number.NEGATIVE_INFINITY,
  max: Number.POSITIVE_INFINITY,
  step: 1,
  unit: '',
  ...spec,
});

/** Keeps `offer` when the reader says so; nothing is kept at first. */
export const keeper = <T>(spec: Omit<Keeper<T>, 'control' | 'value'>): Keeper<T> => ({
  control: 'keeper',
  value: null,
  ...spec,
});

/** One of a few named values; throws an InputError for a value that is none of them. */
export function choice<T extends string>(spec: Omit<Choice<T>, 'control'>): Choice<T> {
  const values = spec.options.map((option) => option.value);
  if (!values.includes(spec.value))
    throw new InputError(`"${spec.value}" is no choice for ${spec.label}; expected ${values.join(', ')}`, {
      field: spec.label,
    });
  return { control: 'choice', ...spec };
}

/** Yes or no. */
export const toggle = (spec: Spec<Toggle>): Toggle => ({
  control: 'toggle',
  ...spec,
});

/** A text to type. */
export const textField = (spec: Spec<TextField, 'lines'>): TextField => ({
  control: 'text',
  lines: 1,
  ...spec,
});

/** An editable table; for the stages of a test see `stageGrid`. */
export const grid = (spec: Spec<Grid, 'check' | 'suggestions'>): Grid => ({
  control: 'grid',
  check: () => [],
  suggestions: [],
  ...spec,
});

/** Whether a value is a control; cells export anything. */
export const isControl = (value: unknown): value is Control =>
  typeof value === 'object' && value !== null && typeof (value as { control?: unknown }).control === 'string';
