import type { Delimited } from './delimited.ts';
import { readHeading } from './headings.ts';
import { QUANTITIES, squash, unitNamed } from './quantities.ts';

/** Whether a text is a unit of anything that is measured. */
const isUnit = (text: string) =>
  Object.values(QUANTITIES).some((quantity) => (unitNamed(text, quantity)?.label ?? '') !== '');

/** Whether an entry is the unit of the column under a heading: one that the heading may have, or a unit in its own right. */
function isUnitOf(heading: string, entry: string): boolean {
  if (/^\d+$/.test(squash(entry))) return false;
  return isUnit(entry) || (readHeading(`${heading} (${entry})`)?.stated ?? false);
}

/** A second row of headings that holds the units ('W', 'bpm', 'mmol/L') is joined to the first. */
export function joinUnitsRow(table: Delimited): Delimited {
  const units = table.rows[0];
  const isUnits = units?.every((entry, i) => entry === '' || isUnitOf(table.headings[i]!, entry));
  if (!units || !isUnits || units.every((entry) => entry === '')) return table;
  return {
    ...table,
    headings: table.headings.map((heading, i) => (units[i] === '' ? heading : `${heading} (${units[i]})`)),
    rows: table.rows.slice(1),
    places: table.places.slice(1),
  };
}
