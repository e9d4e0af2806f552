import { METHODS, methodById } from '../physiology/methods/index.ts';
import type { Method, MethodOptions } from '../physiology/methods/method.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type Toggle, toggle } from '../view/controls.ts';
import type { Display } from './display.ts';

/** One test under study: what every method is shown with. */
export interface Study {
  readings: Readings;
  options: Partial<MethodOptions>;
  sampling: SamplingResult;
  display: Display;
  /** Ids of the methods that are switched on; all when left out. */
  on?: ReadonlySet<string>;
}

/** Ids of all methods there are, those that are off by default and those of other protocols too. */
export const EVERY_METHOD: readonly string[] = METHODS.map((method: Method) => method.id);

/** A switch that turns one method on and off. */
interface MethodSwitch extends Toggle {
  method: string;
}

/** A switch that takes a method into the comparison; its help is what the method looks for, and the paper. */
export function methodSwitch(method: string, value = true): MethodSwitch {
  const { name, meaning, source } = methodById(method);
  return { ...toggle({ label: name, value, about: { says: meaning, source } }), method };
}

/** Ids of the methods whose switch is on; a group may be all that a cell exports. */
export const switchedOn = (...groups: readonly object[]): ReadonlySet<string> =>
  new Set(switchesIn(groups).flatMap(({ method, value }) => (value ? [method] : [])));

/** Ids of the methods that have no switch in these groups. */
export function withoutSwitch(...groups: readonly object[]): string[] {
  const switches = switchesIn(groups);
  return EVERY_METHOD.filter((id) => !switches.some(({ method }) => method === id));
}

const switchesIn = (groups: readonly object[]): MethodSwitch[] =>
  groups.flatMap((group) => Object.values(group).filter(isMethodSwitch));

const isMethodSwitch = (item: unknown): item is MethodSwitch =>
  typeof item === 'object' && item !== null && 'method' in item && 'control' in item;

/** The same result for these methods alone. */
export const onlyMethods = (result: SamplingResult, ids: ReadonlySet<string>): SamplingResult => ({
  ...result,
  methods: result.methods.filter(({ method }) => ids.has(method)),
});

/**
 * The numbers in what somebody typed, apart by spaces or semicolons; a decimal comma counts as a point.
 *
 * @example
 * numbersIn('240; 255,5 x').join() // '240,255.5'
 */
export const numbersIn = (text: string): number[] =>
  text
    .split(/[\s;]+/)
    .filter((part) => part !== '')
    .map((part) => Number(part.replace(',', '.')))
    .filter(Number.isFinite);
