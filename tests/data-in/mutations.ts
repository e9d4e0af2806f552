import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { zipSync } from 'fflate';
import { InputError } from '../../src/base/inputError.ts';
import { stretchesOf, usualAxis } from '../../src/data-in/activity/stretches.ts';
import { firstSpans, repTable, stageTable, withoutBreaks } from '../../src/data-in/activity/tables.ts';
import { stepTestFromText } from '../../src/data-in/fromText.ts';
import { readAnyFile } from '../../src/data-in/readAnyFile.ts';
import { readRosterTest } from '../../src/data-in/roster.ts';
import { readSession } from '../../src/data-in/session.ts';
import { readStepTest } from '../../src/data-in/stages.ts';
import { testFromRecord } from '../../src/data-in/testRecord.ts';
import type { Random } from '../../src/numerics/random.ts';
import {
  accountOf,
  bringTable,
  columnsIn,
  corrected,
  headingLines,
  kindsFor,
} from '../../src/toolkit/broughtTable.ts';
import type { RowsRead } from '../../src/view/controls.ts';
import { rosterFromText, sessionFromText } from './texts.ts';

const KINDS: RowsRead['of'][] = ['stages', 'reps', 'efforts', 'training', 'bouts', 'recovery', 'pairs'];

const folder = path.join(import.meta.dirname, 'files');

/** Every file of the corpus that a reader is for. */
export function corpus(): { name: string; bytes: Uint8Array }[] {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  return names
    .filter((name) => /\.(csv|txt|xlsx|fit|tcx|gpx)$/.test(name))
    .sort()
    .map((name) => ({ name, bytes: new Uint8Array(readFileSync(path.join(folder, name))) }));
}

const below = (random: Random, limit: number) => Math.floor(random.uniform() * limit);

/** Bytes that mean something in one of the formats, beside any other. */
const TELLING = [0, 1, 0x0a, 0x0d, 0x22, 0x26, 0x2c, 0x3b, 0x3c, 0x3e, 0x40, 0x7f, 0x80, 0xc0, 0xfe, 0xff];

type Mutation = (bytes: Uint8Array, random: Random) => Uint8Array;

const overwritten: Mutation = (bytes, random) => {
  const made = bytes.slice();
  for (let i = below(random, 20); i >= 0; i--)
    made[below(random, made.length)] =
      random.uniform() < 0.5 ? TELLING[below(random, TELLING.length)]! : below(random, 256);
  return made;
};
const cutOff: Mutation = (bytes, random) => bytes.slice(0, below(random, bytes.length + 1));
const cutOut: Mutation = (bytes, random) => {
  const [from, length] = [below(random, bytes.length), below(random, 200)];
  return new Uint8Array([...bytes.subarray(0, from), ...bytes.subarray(from + length)]);
};
const doubled: Mutation = (bytes, random) => {
  const [from, length] = [below(random, bytes.length), below(random, 400)];
  const piece = bytes.subarray(from, from + length);
  return new Uint8Array([...bytes.subarray(0, from), ...piece, ...bytes.subarray(from)]);
};
const MUTATIONS = [overwritten, overwritten, cutOff, cutOut, doubled];

/** A workbook with one of its parts changed inside, so that the change is not stopped by the archive. */
function repacked(parts: Record<string, Uint8Array>, random: Random): Uint8Array {
  const names = Object.keys(parts);
  const name = names[below(random, names.length)]!;
  const mutation = MUTATIONS[below(random, MUTATIONS.length)]!;
  return zipSync({ ...parts, [name]: mutation(parts[name]!, random) }, { level: 0 });
}

/** A file of the corpus, changed one to three times. */
export function mutated(
  bytes: Uint8Array,
  random: Random,
  parts: Record<string, Uint8Array> | null,
): Uint8Array {
  if (parts && random.uniform() < 0.8) return repacked(parts, random);
  let made = bytes;
  for (let i = below(random, 3); i >= 0; i--)
    made = MUTATIONS[below(random, MUTATIONS.length)]!(made, random);
  return made;
}

/** Runs what may refuse; anything but an InputError with one short sentence is a fault of ours. */
function refusable(run: () => unknown): void {
  try {
    run();
  } catch (error) {
    expectRefusal(error);
  }
}

function expectRefusal(error: unknown): void {
  if (!(error instanceof InputError)) throw error;
  if (error.message.length > 5000 || error.message.includes('\n'))
    throw new Error(`a refusal that is no sentence: ${error.message.slice(0, 200)}`);
}

function readTables(text: string): void {
  refusable(() => stepTestFromText(text, { file: 'f' }));
  refusable(() => sessionFromText(text, { file: 'f' }));
  for (const of of KINDS) refusable(() => readBrought(text, { of }));
  refusable(() => {
    for (const test of rosterFromText(text)) refusable(() => readRosterTest(test));
  });
  refusable(() => testFromRecord(parsed(text)));
}

/** As a table on the page takes it, with the first column said to hold the first thing that it may. */
function readBrought(text: string, rows: RowsRead): void {
  const brought = { text, name: 'f' };
  const lines = headingLines(text).map(({ line }) => line);
  for (const said of [...lines.slice(0, 2), 'none'] as const)
    refusable(() => accountOf(bringTable(brought, rows, said).value, rows));
  const { value } = bringTable(brought, rows);
  const said = corrected(value, rows, { column: 0, use: { word: kindsFor(rows)[0]!.word } });
  if (columnsIn(said, rows)[0]!.use === null) throw new Error('what was said of a column does not hold');
  refusable(() => accountOf(value, rows));
  accountOf(said, rows);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

/** Puts a file through every reader that may meet it; throws for anything but a result or a refusal. */
export async function readEverything(
  bytes: Uint8Array,
  name: string,
): Promise<'table' | 'recording' | 'refused'> {
  let file: Awaited<ReturnType<typeof readAnyFile>>;
  try {
    file = await readAnyFile(bytes, name);
  } catch (error) {
    expectRefusal(error);
    return 'refused';
  }
  if (file.kind === 'table') {
    readTables(file.text);
    return 'table';
  }
  const { activity } = file;
  const axis = usualAxis(activity);
  const stretches = stretchesOf(activity, firstSpans(activity, axis).spans, { axis });
  refusable(() => readStepTest(stageTable(withoutBreaks(stretches), axis)));
  refusable(() => readSession(repTable(stretches, axis)));
  return 'recording';
}
