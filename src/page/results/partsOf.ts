import { isView } from '../../view/view.ts';

/** Lists inside lists deeper than this are not drawn (our rule): a list may hold itself. */
export const DEEPEST = 12;

/** Everything inside what a cell shows, in order, as deep as it is drawn; lists and stacks by what they hold. */
export function* partsOf(shown: unknown, depth = 0): Generator<unknown> {
  const items = isView(shown) && shown.view === 'stack' ? shown.items : shown;
  if (!Array.isArray(items)) yield shown;
  else if (depth < DEEPEST) for (const item of items) yield* partsOf(item, depth + 1);
}
