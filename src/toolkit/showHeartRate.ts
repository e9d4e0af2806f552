import { heartRateChart } from '../charts/heartRateChart.ts';
import { completedShare, plannedMinutes } from '../physiology/readings.ts';
import type { StepTest } from '../physiology/stepTest.ts';
import { type ChartView, type NoticeView, notice } from '../view/view.ts';
import { type Display, heartRateWords, intensityWords } from './display.ts';
import type { Answered } from './methodRows.ts';
import { tableOf } from './tableOf.ts';

/** Heart rate against intensity with the chosen thresholds; a note when the test has no heart rate. */
export function showHeartRate(
  test: StepTest,
  thresholds: readonly (Answered | null)[],
  { display }: { display: Display },
): ChartView | NoticeView {
  const planned = plannedMinutes(test);
  const stages = test.stages.flatMap((stage) =>
    stage.heartRate === null
      ? []
      : [
          {
            intensity: stage.intensity,
            heartRate: stage.heartRate,
            counted: completedShare(stage, planned) === 1,
          },
        ],
  );
  if (stages.length < 2)
    return notice('note', 'No heart rate in this test', 'Bands are then given without it.');
  const read = thresholds.flatMap((t) =>
    t === null || t.heartRate === null ? [] : [{ ...t, heartRate: t.heartRate }],
  );
  const [first, last] = [stages[0]!, stages.at(-1)!];
  const cut = stages.filter((stage) => !stage.counted).length;
  return heartRateChart({
    data: tableOf('Heart rate by stage', stages, {
      intensity: `Intensity, ${display.unit}`,
      heartRate: 'Heart rate, bpm',
    }),
    axis: display.axis,
    stages,
    thresholds: read.map(({ claim, intensity, heartRate }) => ({
      claim,
      intensity,
      heartRate,
      label: `${claim} ${heartRateWords(heartRate)}`,
    })),
    title: `Heart rate against ${display.axis === 'power' ? 'power' : 'speed'}`,
    summary:
      `Heart rate goes from ${heartRateWords(first.heartRate)} at ${intensityWords(first.intensity, display)} to ` +
      `${heartRateWords(last.heartRate)} at ${intensityWords(last.intensity, display)}; values between stages lie on ` +
      `straight lines.${cut === 0 ? '' : ' Open circle: a stage cut short, not used, since heart rate lags behind.'}`,
  });
}
