import { InputError } from '../../base/inputError.ts';
import { readRosterTest } from '../../data-in/roster.ts';
import { idIn, type TestId, testFromRecord } from '../../data-in/testRecord.ts';
import type { StepTest } from '../../physiology/stepTest.ts';
import type { BatchArguments } from '../arguments.ts';
import { reporter } from '../report.ts';
import type { Task } from './tasks.ts';

/** What all tests of a batch have in common. */
export interface BatchOptions {
  args: BatchArguments;
  /** Named in messages. */
  file: string;
}

const EXAMPLE = '{"id": 1, "sport": "cycling", "stages": [{"power": 100, "lactate": 1.1}]}';

/** What a line of JSON says; undefined, which JSON has no word for, when it is none. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

type Reporter = ReturnType<typeof reporter>;

/** A line of output: what a test says, or what keeps it from saying anything. */
function answerTo(id: TestId, where: string, read: () => StepTest, report: Reporter): string {
  try {
    return JSON.stringify({ id, ...report(read()) });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return JSON.stringify({ id, error: `${where}${error.message}` });
  }
}

function answer(task: Task, { args, file }: BatchOptions, report: Reporter): string {
  if (task.kind === 'fault') return JSON.stringify({ id: null, error: task.error });
  const { sport, mass, protocol } = args;
  const options = { sport, bodyMass: mass, protocol };
  if (task.kind === 'roster')
    return answerTo(task.test.id, '', () => readRosterTest(task.test, { ...options, file }), report);
  const where = `${file}, line ${task.line}: `;
  const record = parsed(task.text);
  if (record === undefined)
    return JSON.stringify({
      id: null,
      error: `${where}no JSON; expected one object a line, such as ${EXAMPLE}`,
    });
  return answerTo(idIn(record), where, () => testFromRecord(record, options), report);
}

/** What answers a task with a line of output. */
export function answering(options: BatchOptions): (task: Task) => string {
  const report = reporter(options.args);
  return (task) => answer(task, options, report);
}
