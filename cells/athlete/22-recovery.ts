import { folded, prose, recoveryGrid } from '#hourline';

export const recovery = recoveryGrid({
  csv: 'minute,lactate (mmol/L),mode\n',
});

export default folded(
  'Samples after the end, if you took any',
  prose`
    A row for each: minutes since the end of the last stage,
    and lactate. They serve the individual anaerobic threshold
    alone, which then appears among the methods.`,
  recovery,
);
