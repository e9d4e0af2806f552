import { describe, expect, test } from 'vitest';
import { piecesOfRecording } from '../../src/data-in/recording.ts';
import { checkTraining, readTraining, readTrainingTable } from '../../src/data-in/trainingList.ts';

const read = (text: string) => readTraining(readTrainingTable(text));
const problems = (text: string) =>
  checkTraining(readTrainingTable(text))
    .filter((mark) => mark.tone === 'problem')
    .map((mark) => mark.text);

describe('a list of training', () => {
  test('pieces with session and goal', () => {
    const got = read(
      'session,time,power (W),goal\nMon,1:30:00,160,easy\nTue,8:00,290,threshold\nTue,2:00,0,threshold\n',
    );
    expect(got.axis).toBe('power');
    expect(got.pieces).toEqual([
      { row: 0, session: 'Mon', minutes: 90, intensity: 160, heartRate: null, goal: 'easy' },
      { row: 1, session: 'Tue', minutes: 8, intensity: 290, heartRate: null, goal: 'threshold' },
      { row: 2, session: 'Tue', minutes: 2, intensity: 0, heartRate: null, goal: 'threshold' },
    ]);
  });

  test('heart rate alone is enough', () => {
    const got = read('time (min),heart rate (bpm)\n40,132\n20,165\n');
    expect(got.axis).toBeNull();
    expect(got.pieces.map((piece) => piece.heartRate)).toEqual([132, 165]);
  });

  test.each([
    ['time (min),heart rate (bpm)\n40,400\n', /heart rate "400" is not possible; expected 25 to 250 bpm/],
    ['time (min),power (W)\n,200\n', /no time; expected how long each piece/],
    ['time (min),power (W)\n-5,200\n', /time "-5" is not possible/],
    [
      'time (min),power (W),goal\n5,200,fun\n',
      /"fun" is no goal of a session; expected easy, threshold or hard/,
    ],
    ['power (W),heart rate\n200,150\n', /no column of times/],
    ['time,lactate\n5,1.2\n', /no column of intensity/],
    ['time (min),power (W)\n,\n', /no training; expected a row/],
  ])('%j: one sentence', (text, sentence) => {
    expect(problems(text)[0]).toMatch(sentence);
    expect(() => read(text)).toThrow(sentence);
  });
});

describe('a recording', () => {
  const recorded = (seconds: number) => ({
    headings: ['elapsed (s)', 'power (W)', 'heart rate (bpm)'],
    rows: Array.from({ length: seconds }, (_, s) => [
      String(s),
      String(s < 60 ? 100 : 250),
      s % 2 ? '' : '140',
    ]),
  });

  test('becomes pieces of half a minute that keep its time and its means', () => {
    const list = readTraining(piecesOfRecording(recorded(300)));
    expect(list.pieces).toHaveLength(10);
    expect(list.pieces.reduce((sum, piece) => sum + piece.minutes, 0)).toBeCloseTo(5, 9);
    expect(list.pieces.map((piece) => piece.intensity)).toEqual([
      100, 100, 250, 250, 250, 250, 250, 250, 250, 250,
    ]);
    expect(list.pieces.every((piece) => piece.heartRate === 140)).toBe(true);
  });

  test('a long one gets longer pieces, not more of them', () => {
    const list = readTraining(piecesOfRecording(recorded(4 * 3600)));
    expect(list.pieces.length).toBeLessThanOrEqual(300);
    expect(list.pieces.reduce((sum, piece) => sum + piece.minutes, 0)).toBeCloseTo(240, 1);
  });

  test('clock times and minutes are read; a table without elapsed time stays as it is', () => {
    const clock = {
      headings: ['Elapsed time', 'power (W)'],
      rows: [
        ['0:00:00', '200'],
        ['0:01:00', '220'],
      ],
    };
    expect(piecesOfRecording(clock).rows).toEqual([
      ['1.000', '200.0'],
      ['1.000', '220.0'],
    ]);
    const list = {
      headings: ['time (min)', 'power (W)'],
      rows: [
        ['5', '200'],
        ['4', '210'],
      ],
    };
    expect(piecesOfRecording(list)).toBe(list);
  });

  test('is known by its headings in a text', () => {
    const text = `elapsed (s),power (W)\n${Array.from({ length: 120 }, (_, s) => `${s},200`).join('\n')}\n`;
    expect(readTrainingTable(text).rows).toHaveLength(4);
    expect(read(text).pieces[0]).toMatchObject({ minutes: 0.5, intensity: 200 });
  });

  test('a time that does not rise is one sentence', () => {
    const broken = {
      headings: ['elapsed (s)', 'power (W)'],
      rows: [
        ['0', '200'],
        ['2', '200'],
        ['1', '200'],
      ],
    };
    expect(() => piecesOfRecording(broken)).toThrow(/row 3, "elapsed \(s\)": "1" does not follow/);
  });
});
