import { readFileSync } from 'node:fs';
import { PassThrough, Readable } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { readArguments } from '../../src/cli/arguments.ts';
import { answering } from '../../src/cli/batch/answer.ts';
import { LineBytes } from '../../src/cli/batch/lineBytes.ts';
import { LONGEST_LINE, linesOf } from '../../src/cli/batch/lines.ts';
import { type Task, tasksIn } from '../../src/cli/batch/tasks.ts';
import { withoutWorkbook } from '../../src/cli/batch/workbook.ts';
import { analyse, type TestReport } from '../../src/cli/report.ts';
import { testFromRecord } from '../../src/data-in/testRecord.ts';

vi.setConfig({ testTimeout: 60_000 });

const argsOf = (...argv: string[]) => {
  const command = readArguments(['--batch', ...argv]);
  if (command.do !== 'batch') return expect.unreachable('no batch');
  return command.args;
};

const piecesOf = (bytes: Uint8Array, size: number) =>
  Readable.from(
    Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) =>
      bytes.subarray(i * size, (i + 1) * size),
    ),
  );

async function tasksOf(input: string | Uint8Array, piece = 64, size = 4): Promise<Task[]> {
  const bytes = typeof input === 'string' ? new TextEncoder().encode(input) : input;
  const tasks: Task[] = [];
  for await (const block of tasksIn(linesOf(piecesOf(bytes, piece)), { size, file: 'f' })) {
    expect(block.length).toBeLessThanOrEqual(size);
    tasks.push(...block);
  }
  return tasks;
}

type Answer = { id: unknown; error?: string } & Partial<TestReport>;

/** What comes out, without threads: those are in the test of the command. */
async function batch(input: string | Uint8Array, ...argv: string[]): Promise<Answer[]> {
  const answer = answering({ args: argsOf(...argv), file: 'f' });
  return (await tasksOf(input)).map((task) => JSON.parse(answer(task)));
}

const STAGES = [100, 140, 180, 220, 260, 300, 340].map((power, i) => ({
  power,
  lactate: [0.9, 1, 1.1, 1.5, 2.4, 4.3, 8.2][i]!,
  heartRate: 110 + 10 * i,
  minutes: 4,
}));
const GOOD = { id: 'a', sport: 'cycling', stages: STAGES };

test('lines become the bytes of their text, whatever is written in them and however long they are', () => {
  const bytes = new LineBytes();
  const given = [
    ['1,5 mmol\u202f·\u202fl⁻¹', '', '\u{1f6b4}'],
    ['a'.repeat(3000), '–'.repeat(500)],
    [],
    ['short'],
  ];
  for (const lines of given)
    expect(new TextDecoder().decode(bytes.of(lines))).toBe(lines.map((line) => `${line}\n`).join(''));
});

describe('lines of a stream', () => {
  test('are the same however the bytes are cut, in any encoding and with any line break', async () => {
    const text = 'eins – Ω\r\nzwei\n\rdrei\r\rvier\n\nfünf';
    const wanted = text.split(/\r\n|\r|\n/).map((line, i) => ({ line: i + 1, text: line }));
    const utf16 = new Uint8Array(2 + 2 * text.length);
    utf16.set([0xff, 0xfe]);
    utf16.set(new Uint8Array(Uint16Array.from(text, (c) => c.charCodeAt(0)).buffer), 2);
    for (const bytes of [new TextEncoder().encode(text), utf16])
      for (let size = bytes === utf16 ? 2 : 1; size <= bytes.length; size++) {
        const lines = [];
        for await (const block of linesOf(piecesOf(bytes, size))) lines.push(...block);
        expect(lines).toEqual(wanted);
      }
  });

  test('a line that is too long is told and not kept; those around it are', async () => {
    const long = JSON.stringify({ id: 'x', junk: 'y'.repeat(3 * LONGEST_LINE) });
    const tasks = await tasksOf(`${JSON.stringify(GOOD)}\n${long}\n${JSON.stringify(GOOD)}\n`, 65536);
    expect(tasks.map(({ kind }) => kind)).toEqual(['record', 'fault', 'record']);
    expect(tasks[1]).toMatchObject({ error: expect.stringMatching(/^f, line 2: longer than 1048576 bytes/) });
  });
});

describe('a line of JSON for each test', () => {
  test('ids of any kind come back in order, a bad test in its own line', async () => {
    const bad = (stages: unknown) => JSON.stringify({ id: 2, sport: 'cycling', stages });
    const lines = [
      JSON.stringify(GOOD),
      '',
      bad([{ power: 100, lactate: '1' }]),
      '{"id": 3,',
      JSON.stringify({ ...GOOD, id: 4 }),
      JSON.stringify({ ...GOOD, id: undefined }),
    ];
    const answers = await batch(lines.join('\n'));
    expect(answers.map(({ id }) => id)).toEqual(['a', 2, null, 4, null]);
    expect(answers.map(({ error }) => error?.slice(0, 38))).toEqual([
      undefined,
      'f, line 3: stage 1, "lactate": "1"; ex',
      'f, line 4: no JSON; expected one objec',
      undefined,
      undefined,
    ]);
    expect(answers[0]!.estimates).toEqual(answers[3]!.estimates);
  });

  test.each<[string, object, string]>([
    ['no stages', { id: 1 }, '"stages": nothing; expected a list of stages'],
    ['a stage that is none', { stages: [3] }, 'stage 1: 3; expected {"power", "lactate"}'],
    ['no intensity', { stages: [{ lactate: 1 }] }, 'no "power" (W) and no "speed" (km/h)'],
    ['both', { stages: [{ power: 100, speed: 10, lactate: 1 }] }, 'stages with "power" and with "speed"'],
    ['none in one', { stages: [{ power: 100, lactate: 1 }, { lactate: 2 }] }, 'stage 2, "power": nothing'],
    [
      'heart rate',
      { stages: [{ power: 100, lactate: 1, heartRate: 999 }] },
      'expected a number from 25 to 250 bpm',
    ],
    ['sport', { sport: 'chess', stages: STAGES }, '"sport": "chess"; expected cycling, running, rowing'],
    ['sport and axis', { sport: 'running', stages: STAGES }, '"power" in a test of running'],
    ['no lactate', { stages: [{ power: 100, lactate: null }] }, 'no lactate in any stage'],
    ['an array', [1], '[1]; expected an object with "id"'],
  ])('%s', async (_, record, sentence) => {
    const [{ error } = { error: '' }] = await batch(JSON.stringify(record));
    expect(error).toContain(sentence);
    expect(error).toMatch(/^f, line 1: /);
  });

  test('fields called like those of every object are no fields', async () => {
    const line = `{"id": 1, "__proto__": {"lactate": 5}, "constructor": 1, "stages": ${JSON.stringify(STAGES)}}`;
    const [answer] = await batch(line);
    expect(answer).toMatchObject({ id: 1, sport: 'cycling', stages: 7 });
    expect(({} as { lactate?: number }).lactate).toBeUndefined();
  });
});

test('a table of stages says the same as the lines of JSON, whatever comes between', async () => {
  const rows = ['a', 'b'].flatMap((id) =>
    STAGES.map(({ power, lactate, heartRate, minutes }) =>
      [id, 'cycling', power, String(lactate).replace('.', ','), heartRate, minutes].join(';'),
    ),
  );
  const table = `Results of spring\nid;sport;power (W);lactate (mmol/L);HR;duration (min)\n${rows.join('\n# checked\n\n')}\n`;
  const fromTable = await batch(table);
  const [fromJson] = await batch(JSON.stringify(GOOD));
  expect(fromTable.map(({ id }) => id)).toEqual(['a', 'b']);
  for (const answer of fromTable) expect(answer.estimates).toEqual(fromJson!.estimates);
});

test('a table with foreign headings is read by their units, and each test says so', async () => {
  const text =
    'Sportler;Leistung (W);Laktat (mmol/L)\nAna;100;1,0\nAna;150;1,4\nAna;200;3,1\nBen;100;1,2\nBen;150;1,9\n';
  const answers = await batch(text);
  expect(answers.map(({ id, stages }) => [id, stages])).toEqual([
    ['Ana', 3],
    ['Ben', 2],
  ]);
  for (const { warnings } of answers)
    expect(warnings).toContain('"Laktat (mmol/L)" is taken for lactate (mmol/L), guessed by its unit.');
});

test('a row of a table with too many entries spoils its own test only', async () => {
  const answers = await batch('id,La 100 W,La 150 W\n1,1,2\n2,1,2,3\n3,1,2\n');
  expect(answers.map(({ error }) => error)).toEqual([
    undefined,
    'f, line 3: 4 entries, but there are 3 headings',
    undefined,
  ]);
});

describe('a workbook', () => {
  const file = new URL('../data-in/files/spreadsheets/roster-merged-names.xlsx', import.meta.url);
  const notes: string[] = [];
  const tableOf = (bytes: Uint8Array, piece: number) =>
    buffer(withoutWorkbook(piecesOf(bytes, piece), 'f.xlsx', (note) => notes.push(note)));

  test.each([3, 1000])('gives the tests of its sheet, in pieces of %i bytes', async (piece) => {
    const answers = await batch(await tableOf(readFileSync(file), piece));
    expect(answers.map(({ id, error }) => [id, error])).toEqual([
      ['A1', undefined],
      ['B2', undefined],
    ]);
  });

  test('any other input passes as it is, each piece before the next is asked for', async () => {
    const text = new TextEncoder().encode('id,power\n1,100\n');
    expect(new Uint8Array(await tableOf(text, 1))).toEqual(text);
    const input = new PassThrough();
    const pieces = withoutWorkbook(input, 'f', () => {})[Symbol.asyncIterator]();
    input.write('id,power\n');
    expect(String((await pieces.next()).value)).toBe('id,power\n');
    input.end();
    expect((await pieces.next()).done).toBe(true);
  });

  test('that is damaged is refused by its name', async () => {
    await expect(tableOf(readFileSync(file).subarray(0, 200), 64)).rejects.toThrow(/^f\.xlsx: /);
  });
});

test('an input without tests is refused as a whole', async () => {
  await expect(tasksOf(' \n\n')).rejects.toThrow('f: empty; expected tests');
  await expect(tasksOf('power,lactate\n100,1\n')).rejects.toThrow(
    'f, line 1: no column tells the tests apart',
  );
});

/** Invented tests on a few plans that differ in one thing or another, rising at the end as real ones do. */
const anyTest = fc
  .record({
    sport: fc.constantFrom('cycling', 'rowing'),
    start: fc.constantFrom(80, 100),
    count: fc.integer({ min: 3, max: 9 }),
    rise: fc.double({ min: 0.3, max: 0.8, noNaN: true }),
    noise: fc.array(fc.integer({ min: -2, max: 2 }), { minLength: 9, maxLength: 9 }),
    rest: fc.option(fc.constantFrom(0.8, 1.2)),
    minutes: fc.option(fc.constantFrom(3, 5)),
    exertion: fc.option(fc.constantFrom(13, 19)),
    isRepeated: fc.boolean(),
  })
  .map(({ sport, start, count, rise, noise, rest, minutes, exertion, isRepeated }) => {
    const stages = Array.from({ length: count }, (_, i) => ({
      power: start + 30 * i,
      lactate: Number((1 + 0.1 * noise[i]! + 0.05 * Math.exp(rise * i)).toFixed(1)),
      heartRate: 100 + 9 * i,
      rpe: i === count - 1 ? exertion : null,
      minutes,
    }));
    return { sport, restLactate: rest, stages: isRepeated ? [stages[0]!, ...stages] : stages };
  });

test.each([
  ['without draws', []],
  ['with draws', ['--draws', '40', '--seed', '5', '--baseline', 'rest']],
])('each test is answered as if it were alone, %s', (_, argv) => {
  const alone = readArguments(['x', '--draws', '0', ...argv]);
  if (alone.do !== 'estimate') return expect.unreachable('no estimate');
  const answer = answering({ args: argsOf(...argv), file: 'f' });
  fc.assert(
    fc.property(fc.array(anyTest, { minLength: 2, maxLength: 5 }), (records) => {
      const tasks: Task[] = records.map((record, i) => ({
        kind: 'record',
        line: i,
        text: JSON.stringify(record),
      }));
      const lines = tasks.map(answer);
      records.forEach((record, i) => {
        const { estimates } = JSON.parse(lines[i]!) as Answer;
        const { report } = analyse(testFromRecord(record), '', alone.args);
        expect(estimates).toEqual(JSON.parse(JSON.stringify(report.estimates)));
      });
    }),
    { seed: 20261125, numRuns: argv.length > 0 ? 15 : 100 },
  );
});

describe('the command line', () => {
  test('a file or standard input, no draws unless asked for', () => {
    expect(readArguments(['--batch'])).toMatchObject({ do: 'batch', file: '-', args: { draws: 0 } });
    expect(readArguments(['t.csv', '--batch', '--draws', '9'])).toMatchObject({
      do: 'batch',
      file: 't.csv',
      args: { draws: 9 },
    });
  });

  test.each([
    [['a', 'b'], '--batch with 2 files; expected one or none'],
    [['--recovery', 'r.csv'], '--recovery r.csv with --batch'],
    [['--protocol', 'bouts'], '--protocol bouts with --batch'],
  ])('%j', (argv, sentence) => {
    expect(() => readArguments(['--batch', ...argv])).toThrow(sentence);
  });
});

test('the output holds up the input: no more is read than threads and buffers hold', async () => {
  const { runBatch } = await import('../../src/cli/batch/run.ts');
  let given = 0;
  async function* endless() {
    const line = new TextEncoder().encode(`${JSON.stringify(GOOD)}\n`.repeat(100));
    for (; given < 2000; given++) yield line;
  }
  const output = new PassThrough({ highWaterMark: 1 });
  const running = runBatch(endless(), output, { args: argsOf(), file: 'f' });
  await new Promise((resolve) => output.once('readable', resolve));
  await new Promise((resolve) => setTimeout(resolve, 300));
  expect(given).toBeLessThan(100);
  output.destroy();
  await expect(running).rejects.toThrow();
});
