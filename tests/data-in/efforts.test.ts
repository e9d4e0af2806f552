import { describe, expect, test } from 'vitest';
import { checkEfforts, readEfforts, readEffortTable } from '../../src/data-in/efforts.ts';

const read = (text: string, options = {}) => readEfforts(readEffortTable(text), options);
const problems = (text: string, options = {}) =>
  checkEfforts(readEffortTable(text), options)
    .filter((mark) => mark.tone === 'problem')
    .map((mark) => mark.text);

describe('best efforts', () => {
  test('power by time, in any order, as time trials when nothing says otherwise', () => {
    const got = read('time,power (W)\n12:00,314\n3:00,372\n1:00:00,280\n');
    expect(got.kind).toBe('time-trial');
    expect(got.sport).toBe('cycling');
    expect(got.efforts).toEqual([
      { row: 1, seconds: 180, intensity: 372 },
      { row: 0, seconds: 720, intensity: 314 },
      { row: 2, seconds: 3600, intensity: 280 },
    ]);
  });

  test('distance and time of running races', () => {
    const got = read('distance (km),time\n5,20:00\n21.0975,1:31:00\n');
    expect(got.axis).toBe('speed');
    expect(got.efforts.map((effort) => effort.intensity)).toEqual([15, expect.closeTo(13.9104, 4)]);
  });

  test.each([
    ['pace (min/km),time (min)\n4:00,20\n', 15],
    ['speed (m/s),time (s)\n4,900\n', 14.4],
    ['distance (miles),time\n1,6:00\n', 16.09344],
    ['distance (m);time (min)\n1500;4,5\n', 20],
  ])('%j is %d km/h', (text, kmh) => {
    expect(read(text, { sport: 'running' }).efforts[0]!.intensity).toBeCloseTo(kmh, 9);
  });

  test('a distance serves where no intensity is given; a column of power is nothing to a runner', () => {
    const both = 'time,speed (km/h),distance (km)\n20:00,15,\n40:00,,9\n';
    expect(read(both, { sport: 'running' }).efforts.map((effort) => effort.intensity)).toEqual([15, 13.5]);
    const bare = 'time,power (W),distance (km)\n20:00,,5\n';
    expect(read(bare, { sport: 'running' }).efforts[0]!.intensity).toBe(15);
    expect(problems(bare, { sport: 'cycling' })[0]).toMatch(/no intensity/);
  });

  test('a rowing distance becomes power where power is wanted: 2000 m in 7:00 is 302 W', () => {
    // 2.80·(2000/420)^3 = 302.3 W.
    const got = read('distance (m),time\n2000,7:00\n', { sport: 'rowing', axis: 'power' });
    expect(got.axis).toBe('power');
    expect(got.efforts[0]!.intensity).toBeCloseTo(302.34, 2);
  });

  test('the kind is read, and two kinds are not mixed', () => {
    const head = 'time,power (W),kind\n3:00,372,to exhaustion\n';
    expect(read(`${head}9:00,320,\n`).kind).toBe('exhaustion');
    expect(problems(`${head}9:00,320,time trial\n`)[0]).toMatch(/expected one kind/);
    expect(problems(`${head}9:00,320,easy\n`)).toEqual([
      '"easy" is no kind of effort; expected time trial or to exhaustion',
    ]);
  });

  test.each([
    ['time,power (W)\n,300\n', /no time; expected the time of every effort/],
    ['time,power (W)\n3:00,\n', /no intensity; expected one for every effort/],
    ['time,power (W)\n3:00,-20\n', /power "-20" is not possible; expected 1 to 2500 W/],
    ['time,power (W)\n30:00:00,200\n', /time "30:00:00" is not possible; expected 5 s to 1440 min/],
    ['time,power (W)\n180,300\n', /"180" may be minutes or seconds/],
    ['distance,time\n5,20:00\n', /"distance" does not say its unit; expected m, km or mile/],
    ['distance (km),time\n50,20:00\n', /50000 m in 20 min is a speed of 150 km\/h/],
    ['lactate,power (W)\n1,200\n', /no column of times/],
    ['time,heart rate\n3:00,150\n', /no column of intensity/],
    ['time,power (W)\n,\n', /no efforts; expected a row for each/],
  ])('%j: one sentence', (text, sentence) => {
    expect(problems(text)[0]).toMatch(sentence);
    expect(() => read(text)).toThrow(sentence);
  });
});
