import type { Interpret } from './fakeEngine.ts';

/** "fault LINE COLUMN" fails there, "reads NAME" imports, anything else is shown as a number or as itself. */
export const interpret: Interpret = (text) => {
  const fault = /fault (\d+) (\d+)/.exec(text);
  if (fault)
    throw Object.assign(new Error('this is wrong'), { line: Number(fault[1]), column: Number(fault[2]) });
  const imports = [...text.matchAll(/reads (\S+)/g)].map((match) => match[1]!);
  return { shown: Number(text) || text, imports, exports: ['answer'] };
};

/** One cell that another reads, and a third by itself. */
export const CELLS = [
  { name: 'first.ts', text: '1' },
  { name: 'second.ts', text: 'reads first.ts' },
  { name: 'third.ts', text: '3' },
];
