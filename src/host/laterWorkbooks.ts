import type { CellText } from '../workbook/document.ts';
import { texts } from './shipped.ts';

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
  methods: texts(methods),
  'lactate-minimum': texts(lactateMinimum),
  reverse: texts(reverse),
  bouts: texts(bouts),
} satisfies Record<string, CellText[]>;
