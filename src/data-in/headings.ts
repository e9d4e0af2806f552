import { type Meaning, QUANTITIES, SPLIT_UNIT, type Unit, unitNamed } from './quantities.ts';

/** What the heading of a column means. */
export interface Heading {
  meaning: Meaning;
  /** The name as it was matched, lower case; '' when the heading is a unit alone. */
  name: string;
  /** Unit named in the heading, or the quantity's usual one; null when neither exists. */
  unit: Unit | null;
  /** True when the heading itself names the unit. */
  stated: boolean;
  /** What stands where a unit is expected and is none we know. */
  unknownUnit: string | null;
}

const MEANINGS = Object.keys(QUANTITIES) as Meaning[];
/** Words that do not change what a column holds. */
const QUALIFIERS =
  /\b(mean|average|avg|capillary|blood|measured|target|set|nominal|actual)\b\.?|\s(at )?end( of stage)?$/g;

/** What a heading begins with that nobody is to read; the rest stays for messages. */
export const NOT_USED = 'not used: ';
/** The heading as it was before it was marked `NOT_USED`. */
export const withoutNotUsed = (heading: string): string =>
  heading.startsWith(NOT_USED) ? heading.slice(NOT_USED.length) : heading;

/** Longer texts are notes; where name and unit part is tried at every place, which takes long in them. */
const LONGEST_HEADING = 120;

const lower = (heading: string) =>
  heading
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll('_', ' ')
    .replaceAll('\u2212', '-')
    .replace(/\s+/g, ' ')
    .trim();
const withoutQualifiers = (text: string) => text.replace(QUALIFIERS, ' ').replace(/\s+/g, ' ').trim();

/** Name and unit of a heading, at each place where one could end and the other begin; longest name first. */
function divisions(heading: string): { name: string; unit: string; marked: boolean }[] {
  const found = [{ name: heading, unit: '', marked: false }];
  for (const match of [...heading.matchAll(/\s*[([{/,:;]\s*|\s+(?:in\s+)?(?=\S)/g)].reverse()) {
    const name = heading.slice(0, match.index).trim();
    const rest = heading.slice(match.index).replace(/^[\s,:;]*(in\s)?/, '');
    const unit = rest.replace(/^[([{]+|[)\]}]+$/g, '').trim();
    if (name !== '') found.push({ name, unit, marked: /^[([{/]/.test(rest) });
  }
  return found;
}

/** 'split' alone is a time for 500 m; every other quantity has its usual unit or none. */
const usualUnit = (meaning: Meaning, name: string) =>
  meaning === 'pace' && /split|500/.test(name) ? SPLIT_UNIT : QUANTITIES[meaning].usual;

function unitAlone(text: string): Heading | null {
  for (const meaning of MEANINGS) {
    const unit = unitNamed(text, QUANTITIES[meaning]);
    if (unit && unit.label !== '') return { meaning, name: '', unit, stated: true, unknownUnit: null };
  }
  return null;
}

function nameAndUnit(name: string, unitText: string): Heading | null {
  const possible = MEANINGS.filter((meaning) => QUANTITIES[meaning].names.includes(name));
  for (const meaning of possible) {
    const unit = unitNamed(unitText, QUANTITIES[meaning]);
    if (unit) return { meaning, name, unit, stated: true, unknownUnit: null };
  }
  return null;
}

function nameAlone(name: string): Heading | null {
  const meaning = MEANINGS.find((candidate) => QUANTITIES[candidate].names.includes(name));
  if (!meaning) return null;
  const worded = unitNamed(name, QUANTITIES[meaning]);
  const unit = worded ?? usualUnit(meaning, name);
  return { meaning, name, unit, stated: worded !== null, unknownUnit: null };
}

/**
 * What a column of a stage table holds, told from its heading: a name, a unit or both, in the trade's words, in
 * any case. Null for a heading that is none of ours ('HR max', 'cadence').
 *
 * @example
 * readHeading('Blood lactate [mmol·L⁻¹]').meaning // 'lactate'
 */
export function readHeading(heading: string): Heading | null {
  if (heading.length > LONGEST_HEADING) return null;
  const text = lower(heading);
  if (text === '') return null;
  const bare = withoutQualifiers(text.replace(/[()[\]{}]/g, ' '));
  const whole = nameAlone(text) ?? nameAlone(bare) ?? unitAlone(text) ?? unitAlone(bare);
  if (whole) return whole;
  const parts = divisions(text).map((part) => ({
    ...part,
    name: withoutQualifiers(part.name.replace(/[()[\]{}]/g, ' ')),
  }));
  for (const part of parts) {
    const heading = nameAndUnit(part.name, withoutQualifiers(part.unit));
    if (heading) return heading;
  }
  for (const part of parts.filter((candidate) => candidate.marked)) {
    const heading = nameAlone(part.name);
    if (heading) return { ...heading, unit: null, unknownUnit: part.unit };
  }
  return null;
}

/**
 * The unit of a quantity that a heading names behind a name which nobody here knows ('Leistung (W)'); null for none.
 *
 * @example
 * unitBehind('Geschwindigkeit [m/s]', 'speed').label // 'm/s'
 */
export function unitBehind(heading: string, meaning: Meaning): Unit | null {
  if (heading.length > LONGEST_HEADING) return null;
  const units = divisions(lower(heading)).map(({ unit }) => unitNamed(unit, QUANTITIES[meaning]));
  return units.find((unit) => unit !== null && unit.label !== '') ?? null;
}

/** True for a heading that leaves open which intensity is meant: 'intensity' without a unit. */
export const isOpenIntensity = (heading: Heading): boolean =>
  heading.name === 'intensity' && !heading.stated && heading.unknownUnit === null;

/** How many entries of a row are headings that are known everywhere, or, trimmed, of the one kind of table. */
export const countingHeadings =
  (isOwn: (entry: string) => boolean) =>
  (entries: readonly string[]): number =>
    entries.filter((entry) => isOwn(entry.trim()) || readHeading(entry) !== null).length;
