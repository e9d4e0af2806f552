import { onlyLive, prose } from '#hourline';

export default onlyLive(prose`
  ## Your first five minutes
  Each step leads to its place; a button there leads back.
  Nothing can break: *Reset workbook* at the top brings
  everything back, this list too if you delete it.

  1. [Read the answer](cell:72-chosen): two thresholds, each
     with the range that its errors leave open.
  2. [Drag a reading](cell:40-curve) up, or reach it with
     the Tab key and press the arrow keys: the curve and all
     below it follow. *Undo* takes it back.
  3. [Move the meter’s error](cell:65-sensitivity),
     repeatability first: the ridges grow wide, some of them
     more than others.
  4. [Ask how one is found](cell:54-which): choose Dmax, and
     its line appears under the same readings.
  5. [Change the code](cell:40-curve): write
     \`'cubic'\` for \`model.value\`. The solid curve
     changes, the thresholds with it. *Reset to the original
     text*, in the cell’s menu, mends it.
  6. [Review a session](cell:100-session): the verdict below
     the table says it was too hard. Type 2.5 for each
     lactate: the verdict turns, and tells what does not fit.
  7. [Put your own test in](cell:20-stages): copy a table
     with its headings, click an entry, paste. What is still
     invented elsewhere then keeps silent. *Undo* again.
  8. *Share page*, in the bar at the top, saves all of it as
     one file that anybody can read.
`);
