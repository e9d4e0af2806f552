/** A table of text as typed: headings and rows; every row has as many entries as there are headings. */
export interface GridValue {
  headings: string[];
  rows: string[][];
}

/** A remark about one entry of a grid; `row` -1 is the heading row, `column` -1 the whole row. */
export interface GridMark {
  row: number;
  column: number;
  tone: 'problem' | 'note';
  text: string;
}
