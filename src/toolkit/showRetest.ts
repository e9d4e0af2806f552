import { formatChange, formatNumber, withUnit } from '../base/format.ts';
import { type RetestCurve, retestChart } from '../charts/retestChart.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { MethodShift, Retest } from '../physiology/training/retest.ts';
import { type ChartView, type NoticeView, notice, type TableView, table } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords } from './display.ts';
import { answerOf } from './methodRows.ts';
import type { ComparedTest, CurvedTest } from './retests.ts';
import { curvePoints } from './showCurve.ts';

interface RetestOptions {
  display: Display;
  /** Ids of the chosen methods. */
  lt1: string;
  lt2: string;
}

const VERDICTS = {
  changed: 'changed',
  'not-shown': 'not shown to have changed',
  'not-comparable': 'cannot be compared',
} as const;

/** What a retest says of the chosen second threshold, in one notice. */
export function sayRetest({ earlier, retest }: ComparedTest, { display, lt2 }: RetestOptions): NoticeView {
  const since = `since “${earlier.name}”`;
  if (retest.reasons.length > 0)
    return notice(
      'caution',
      `Cannot be compared with “${earlier.name}”`,
      `${retest.reasons.join(' ')} To learn of a change, test again the way one of the two was done.`,
    );
  const shift = retest.shifts.find((one) => one.method === lt2);
  if (!shift)
    return notice(
      'note',
      `No comparison with “${earlier.name}”`,
      `${methodById(lt2).name} has no answer in one of the tests.`,
    );
  const body = `${shiftSentence(shift, display)} ${unknownWords(retest)}`;
  if (shift.verdict !== 'changed')
    return notice('note', `No change of the second threshold is shown ${since}`, body);
  const risen = shift.shift > 0;
  // Good news only where nothing else is left that may have moved it.
  return notice(
    risen && retest.unknown.length === 0 ? 'good' : 'note',
    `The second threshold has ${risen ? 'risen' : 'fallen'} ${since}`,
    body,
  );
}

function shiftSentence(shift: MethodShift, display: Display): string {
  const passes = Math.abs(shift.shift) > shift.smallest;
  return (
    `It moved by ${changeWords(shift.shift, display)} by ${methodById(shift.method).name} (95 % interval ${intervalWords(shift, display)}). ` +
    `Tests of one athlete differ by up to ${intensityWords(shift.smallest, display)} by chance alone, so that ${
      passes ? 'this is more than chance' : 'this may be chance'
    }${passes && shift.verdict !== 'changed' ? ', but the readings alone could explain it' : ''}.`
  );
}

const unknownWords = ({ unknown }: Retest) =>
  unknown.length === 0
    ? ''
    : `Not known to have been the same: ${unknown.join(', ')}; another one can look like a change of the athlete.`;

const changeDigits = ({ axis }: Display) => (axis === 'power' ? 0 : 1);

const changeWords = (value: number, display: Display) =>
  withUnit(formatChange(value, changeDigits(display)), display.unit);

/** `−4 to 31`; an open end lies beyond what was tested. */
function bareInterval({ low, high }: MethodShift, display: Display): string {
  const end = (value: number) =>
    Number.isFinite(value) ? formatChange(value, changeDigits(display)) : 'open';
  return `${end(low)} to ${end(high)}`;
}

function intervalWords(shift: MethodShift, display: Display): string {
  const ends = bareInterval(shift, display);
  return ends.endsWith('open') ? ends : withUnit(ends, display.unit);
}

/** The tests laid over each other, the latest strongest, with the chosen thresholds on each. */
export function showRetest(
  latest: CurvedTest,
  compared: readonly ComparedTest[],
  { display, lt1, lt2 }: RetestOptions,
): ChartView {
  const tests = [latest, ...compared.map(({ earlier }) => earlier)];
  return retestChart({
    axis: display.axis,
    tests: tests.map((test) => retestCurve(test, [lt1, lt2])),
    title: 'The tests over each other',
    summary: compared
      .flatMap(({ earlier, retest }) =>
        retest.shifts
          .filter(({ method }) => method === lt2)
          .map((one) =>
            one.verdict === 'not-comparable'
              ? `The test and “${earlier.name}” cannot be compared: how far the second threshold lies apart says nothing of the athlete.`
              : `Second threshold ${changeWords(one.shift, display)} since “${earlier.name}”.`,
          ),
      )
      .join(' '),
    data: readingsTable(tests, display),
  });
}

const readingsTable = (tests: readonly CurvedTest[], display: Display): TableView =>
  table({
    caption: 'Readings of the tests',
    columns: [
      { key: 'test', heading: 'Test' },
      { key: 'at', heading: 'Intensity', align: 'right' },
      { key: 'lactate', heading: 'Lactate', unit: 'mmol/L', align: 'right' },
    ],
    rows: tests.flatMap(({ name, readings }) =>
      Array.from(readings.x, (x, i) => ({
        test: name,
        at: intensityWords(x, display),
        lactate: readings.y[i]!.toFixed(1),
      })),
    ),
  });

const retestCurve = (
  { name, readings, sampling, curve }: CurvedTest,
  ids: readonly string[],
): RetestCurve => ({
  name,
  x: readings.x,
  y: readings.y,
  // A curve that cannot be drawn through these readings gives way to straight lines between them.
  curve: curve.status === 'ok' ? curvePoints(curve) : readings,
  thresholds: ids.flatMap((id) => {
    const answer = answerOf(sampling, id);
    return answer === null
      ? []
      : [{ claim: answer.claim, intensity: answer.intensity, lactate: answer.lactate }];
  }),
});

/** The shift of each method against the smallest change that is more than chance. */
export function shiftTable({ earlier, retest }: ComparedTest, display: Display): TableView {
  const align = 'right' as const;
  const { unit } = display;
  const sources = [...new Set(retest.shifts.map(({ repeatability }) => repeatability.source))];
  return table({
    caption: `Each method, this test against “${earlier.name}”`,
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'before', heading: 'Earlier', unit, align },
      { key: 'after', heading: 'Now', unit, align },
      { key: 'shift', heading: 'Shift', unit, align },
      { key: 'interval', heading: '95 % interval', unit, align },
      { key: 'smallest', heading: 'Least change beyond chance', unit, align },
      { key: 'verdict', heading: 'Verdict' },
    ],
    rows: retest.shifts.map((one) => ({
      method: methodById(one.method).name,
      before: bareIntensity(one.before, display),
      after: bareIntensity(one.after, display),
      shift: formatChange(one.shift, changeDigits(display)),
      interval: bareInterval(one, display),
      smallest: formatNumber(one.smallest, changeDigits(display)),
      verdict: VERDICTS[one.verdict],
      tone: one.verdict === 'changed' ? ('strong' as const) : null,
    })),
    note: `The least change is 1.96·√2 times how tests repeat (${sources.join('; ')}). It holds the meter’s error already. Shifts are taken before rounding.`,
  });
}
