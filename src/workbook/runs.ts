import type { Controls } from './controls.ts';
import { nestedControls } from './controls.ts';
import { compileCell } from './evaluate.ts';
import { messageOf } from './faults.ts';
import { handOver, type Input } from './inputs.ts';
import type { CellRecord, Ending, Run } from './record.ts';
import { problem } from './syntax.ts';

/** Ends what the last run left open: its signal is aborted and its clean-ups run. */
export function stopRun(record: CellRecord): void {
  const run = record.live;
  record.running = null;
  record.live = null;
  if (!run) return;
  run.abort.abort();
  for (const stop of run.stops.splice(0)) callStop(stop, record);
}

function callStop(stop: () => void, record: CellRecord): void {
  try {
    stop();
  } catch (fault) {
    record.runWarnings = [
      ...record.runWarnings,
      problem(`The clean-up of this cell failed: ${messageOf(fault)}`),
    ];
  }
}

/** Begins a run; from here on the one before is over. */
export function beginRun(record: CellRecord, inputs: Input[], started: number): Run {
  record.runWarnings = [];
  stopRun(record);
  const run: Run = {
    abort: new AbortController(),
    stops: [],
    reads: new Map(),
    inputs,
    started,
    compiled: null,
  };
  record.running = run;
  record.live = run;
  // Should this run be dropped, the one before cannot stand in for it: its clean-ups have run.
  record.inputs = null;
  return run;
}

/** Calls the cell's code, compiled on the first run after an edit. Throws what the cell throws. */
export function callCell(
  record: CellRecord,
  run: Run,
  controls: Controls,
  load: (from: string) => Promise<object>,
): unknown[] | Promise<unknown[]> {
  record.compiled ??= compileCell(record.name, record.parsed, record.rewritten);
  run.compiled = record.compiled;
  const onStop = (stop: () => void) => {
    if (run.abort.signal.aborted) callStop(stop, record);
    else run.stops.push(stop);
  };
  const meta = Object.freeze({ signal: run.abort.signal, onStop });
  const imported = run.inputs.map((input) => handOver(input, controls, run.reads));
  return run.compiled.call({ meta, load, imported });
}

/** Takes over what a run has exported. */
export function landValues(record: CellRecord, run: Run, exported: unknown[], controls: Controls): void {
  const values = new Map(record.exports.map((name, i) => [name, exported[i]]));
  for (const slot of record.slots.filter((s) => !values.has(s.name))) controls.forget(slot);
  record.slots = controls.adopt(record.name, values);
  record.values = values;
  record.shown = values.get('default');
  record.hidden ??= nestedWarnings(values, controls);
  record.runWarnings = [...record.runWarnings, ...record.hidden];
  record.problem = null;
  land(record, run, 'done');
}

/** Ends a run: what it read is remembered, so that it is known when to run again. */
export function land(record: CellRecord, run: Run, ended: Ending): void {
  record.running = null;
  record.inputs = run.inputs;
  record.reads = run.reads;
  record.ended = ended;
  record.runs += 1;
}

/** Controls that readers could not follow, because they are not exported themselves. */
function nestedWarnings(values: ReadonlyMap<string, unknown>, controls: Controls) {
  return [...values].flatMap(([name, value]) =>
    nestedControls(
      value,
      (control) => controls.isView(control) || (name === 'default' && controls.slotOf(control) !== undefined),
    ).map((label) =>
      problem(
        `The control '${label}' lies inside ${name === 'default' ? 'what this cell shows' : name} and cannot be followed when it moves.`,
        'Export it under a name of its own: export const name = …',
      ),
    ),
  );
}
