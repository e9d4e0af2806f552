/** Decimals that a step needs: 0.05 needs two, 5 none. */
export function decimalsOf(step: number): number {
  if (!Number.isFinite(step) || step <= 0) return 3;
  for (let decimals = 0; decimals < 8; decimals++) {
    if (Math.abs(Math.round(step * 10 ** decimals) - step * 10 ** decimals) < 1e-9 * 10 ** decimals)
      return decimals;
  }
  return 8;
}

/** A number as the reader should see it, with the decimals of the step but none that a typed value does not have. */
export function formatted(value: number, step: number): string {
  const rounded = value.toFixed(decimalsOf(step));
  return Number(rounded) === value ? rounded : String(value);
}

interface Limits {
  label: string;
  min: number;
  max: number;
  unit: string;
  /** The value that the control starts with; null for none. */
  value: number | null;
}

/** A time such as 3:30, in minutes; NaN for anything else. */
function minutesIn(typed: string): number {
  const [, minutes, seconds] = /^(\d+):([0-5]\d)$/.exec(typed) ?? [];
  return Number(minutes) + Number(seconds) / 60;
}

/** What was typed, as a number within the limits, or the sentence that says what is expected. */
export function readNumber(typed: string, limits: Limits): { value: number } | { fault: string } {
  const isTime = limits.unit === 'min' && typed.includes(':');
  const value = isTime ? minutesIn(typed.trim()) : Number(typed.trim().replace(',', '.').replace('−', '-'));
  const unit = limits.unit ? ` ${limits.unit}` : '';
  if (typed.trim() === '' || !Number.isFinite(value)) {
    return { fault: `${limits.label} needs a number${unit && ` in${unit}`}, such as ${example(limits)}` };
  }
  if (value < limits.min || value > limits.max)
    return { fault: `${limits.label} must be ${range(limits)}${unit}` };
  return { value };
}

const example = ({ value, min, max }: Limits): string => {
  if (value !== null) return String(value);
  if (Number.isFinite(min) && Number.isFinite(max)) return String(Number(((min + max) / 2).toPrecision(2)));
  return Number.isFinite(min) ? String(min) : '10';
};

function range({ min, max }: { min: number; max: number }): string {
  if (!Number.isFinite(min)) return `at most ${max}`;
  return Number.isFinite(max) ? `between ${min} and ${max}` : `at least ${min}`;
}
