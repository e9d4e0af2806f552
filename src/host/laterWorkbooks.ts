import type { CellText } from '../workbook/document.ts';
import { athlete, texts } from './shipped.ts';

const runner = texts(
  import.meta.glob<string>('../../cells/athlete-runner/*.ts', {
    query: '?raw',
    import: 'default',
    eager: true,
  }),
);

/** The runner's workbook is the athlete's but for the cells that say who was tested and how. */
const replacedByRunner = (cell: CellText): CellText =>
  runner.find((other) => other.name === cell.name) ?? cell;

const methods = import.meta.glob<string>('../../cells/methods/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const lactateMinimum = import.meta.glob<string>('../../cells/lactate-minimum/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const reverse = import.meta.glob<string>('../../cells/reverse/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const bouts = import.meta.glob<string>('../../cells/bouts/*.ts', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** Shipped workbooks that nobody needs before they are opened. */
export const LATER = {
  runner: athlete.map(replacedByRunner),
  methods: texts(methods),
  'lactate-minimum': texts(lactateMinimum),
  reverse: texts(reverse),
  bouts: texts(bouts),
} satisfies Record<string, CellText[]>;
