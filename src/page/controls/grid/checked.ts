import type { GridMark, GridValue } from '../../../base/grid.ts';
import type { Grid } from '../../../view/controls.ts';
import { messageOf } from './messageOf.ts';

/** Remarks on a table; one on the whole of it when its check fails. */
export function checked(control: Grid, grid: GridValue): GridMark[] {
  try {
    return control.check(grid);
  } catch (error) {
    return [{ row: -1, column: -1, tone: 'problem', text: messageOf(error) }];
  }
}
