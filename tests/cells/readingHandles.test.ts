import { expect, test } from 'vitest';
import { displayOf, readingHandles, readStepTest, stageGrid, usableReadings } from '#hourline';

function handlesOf(csv: string) {
  const stages = stageGrid({ csv, sport: 'cycling' });
  const stepTest = readStepTest(stages.value, { sport: 'cycling' });
  const readings = usableReadings(stepTest);
  const display = displayOf(stepTest, readings);
  return { stages, handles: readingHandles(stages, { test: stepTest, readings, display }) };
}

test('each reading writes into the row that it came from, whatever else stands in the table', () => {
  const { stages, handles } = handlesOf(
    'stage,power (W),lactate\nrest,,1.1\n1,150,1.0\n2,200,1.4\n3,250,3.9\n',
  );
  expect(handles.map((handle) => handle?.label)).toEqual(
    ['150', '200', '250'].map((at) => `Reading at ${at}\u202fW`),
  );
  const moved = handles[1]!.moved(2.3) as typeof stages.value;
  expect(moved.rows.map((row) => row[2])).toEqual(['1.1', '1.0', '2.3', '3.9']);
  expect(stages.value.rows[2]![2]).toBe('1.4');
  expect(moved.headings).toBe(stages.value.headings);
});

test('a reading that goes back to where it was has all the decimals that were typed', () => {
  const { stages, handles } = handlesOf('power (W),lactate\n150,1.0\n200,1.42\n250,3.9\n');
  expect(handles[1]!.moved(handles[1]!.value)).toEqual(stages.value);
});

test('decimal commas stay commas', () => {
  const { handles, stages } = handlesOf('power (W);lactate\n150;1,0\n200;1,4\n250;3,9\n');
  expect((handles[0]!.moved(1.6) as typeof stages.value).rows[0]).toEqual(['150', '1,6']);
});

test('a reading in a column of milligrams says that it was dragged in millimoles', () => {
  const { handles, stages } = handlesOf('power (W);lactate (mg/dL)\n150;9,0\n200;12,6\n250;35,1\n');
  expect(handles[1]!.value).toBeCloseTo(12.6 / 9.008, 12);
  expect((handles[1]!.moved(1.6) as typeof stages.value).rows[1]).toEqual(['200', '1,6 mmol/L']);
  expect((handles[1]!.moved(12.6 / 9.008) as typeof stages.value).rows[1]).toEqual(['200', '1,399 mmol/L']);
});

test('the mean of two samples stays put', () => {
  const twice = handlesOf('power (W),lactate\n150,1.0\n150,1.2\n200,1.4\n250,3.9\n').handles;
  expect(twice.map((handle) => handle === null)).toEqual([true, false, false]);
});
