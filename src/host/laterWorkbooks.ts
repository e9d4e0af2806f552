import type { CellText } from '../workbook/document.ts';
import { athlete, inOrder, texts } from './shipped.ts';

const files = import.meta.glob<string>(
  '../../cells/{athlete-*,methods,lesson,lactate-minimum,reverse,bouts}/*.ts',
  {
    query: '?raw',
    import: 'default',
    eager: true,
  },
);

const cellsOf = (folder: string): CellText[] =>
  texts(Object.fromEntries(Object.entries(files).filter(([file]) => file.includes(`/cells/${folder}/`))));

/** A workbook's own cells with those of another one that it shares: all that it has none of its own for. */
const sharing = (own: readonly CellText[], others: readonly CellText[]): CellText[] =>
  inOrder([...own, ...others.filter((other) => !own.some((cell) => cell.name === other.name))]);

/** The first steps lead through the sample that Hourline opens on, and nowhere else. */
const FIRST_STEPS = ['02-new-here.ts', '158-first-minutes.ts'];
const inEvery = athlete.filter((cell) => !FIRST_STEPS.includes(cell.name));
const cautions = athlete.filter((cell) => cell.name === '05-cautions.ts');
const lactateMinimum = sharing(cellsOf('lactate-minimum'), cautions);

/** Shipped workbooks that nobody needs before they are opened. */
export const LATER = {
  own: sharing(cellsOf('athlete-own'), inEvery),
  runner: sharing(cellsOf('athlete-runner'), inEvery),
  methods: sharing(cellsOf('methods'), cautions),
  lesson: cellsOf('lesson'),
  'lactate-minimum': lactateMinimum,
  reverse: sharing(cellsOf('reverse'), lactateMinimum),
  bouts: sharing(cellsOf('bouts'), cautions),
} satisfies Record<string, CellText[]>;
