import { InputError } from '../base/inputError.ts';

const CELL_NAME = /^[A-Za-z0-9_-]+\.ts$/;

/** Whether the path of an import is that of a cell: './name.ts'. */
export const isCellPath = (path: string): boolean => path.startsWith('./') && CELL_NAME.test(path.slice(2));

/** The cell that the path of an import names: 'name.ts' of './name.ts'. */
export const nameInPath = (path: string): string => path.slice(2);

/** Names are told to the reader without the ending that they all have. */
export const shortName = (name: string): string => name.replace(/\.ts$/, '');

/** Throws InputError unless a further cell can get this name. */
export function checkNewName(name: string, taken: Iterable<string>): void {
  if (!name.endsWith('.ts')) {
    throw new InputError(
      `'${name}' cannot be the name of a cell: expected .ts at its end, such as curve.ts.`,
      {
        field: 'name',
      },
    );
  }
  if (!CELL_NAME.test(name)) {
    throw new InputError(
      `'${shortName(name)}' cannot be the name of a cell: expected letters, digits, - or _, such as curve.`,
      { field: 'name' },
    );
  }
  // Not told apart on some file systems, and easily confused by readers.
  const same = [...taken].find((other) => other.toLowerCase() === name.toLowerCase());
  if (same)
    throw new InputError(`There is already a cell called ${shortName(same)}: expected a name of its own.`, {
      field: 'name',
    });
}
