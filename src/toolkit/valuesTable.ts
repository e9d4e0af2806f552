import type { StepTest } from '../physiology/stepTest.ts';
import { type ValuesAt, valuesAt } from '../physiology/valuesAt.ts';
import { type TableView, table } from '../view/view.ts';
import { bareIntensity, type Display, percentWords } from './display.ts';
import type { Answered } from './methodRows.ts';

/** What else the test measured, at the chosen thresholds; null when it measured nothing else. */
export function valuesTable(
  test: StepTest,
  thresholds: readonly (Answered | null)[],
  { display }: { display: Display },
): TableView | null {
  const found = thresholds.filter((answer) => answer !== null);
  const lt2 = found.find((answer) => answer.claim === 'LT2')?.intensity ?? null;
  const values = found.map((answer) => valuesAt(test, answer.intensity, { lt2 }));
  const has = (key: 'heartRate' | 'rpe' | 'oxygenUptake') => values.some((value) => value[key] !== null);
  if (!has('heartRate') && !has('rpe') && !has('oxygenUptake')) return null;
  const align = 'right' as const;
  const warnings = [...new Set(values.flatMap((value) => value.warnings))];
  return table({
    caption: 'What else was measured there',
    columns: [
      { key: 'name', heading: 'Threshold' },
      { key: 'at', heading: 'At', unit: display.unit, align },
      ...(has('heartRate')
        ? [
            { key: 'heartRate', heading: 'Heart rate', unit: 'bpm', align },
            { key: 'share', heading: 'Of the test’s highest', align },
          ]
        : []),
      ...(has('rpe') ? [{ key: 'rpe', heading: 'Perceived exertion', align }] : []),
      ...(has('oxygenUptake')
        ? [{ key: 'oxygen', heading: 'Oxygen uptake', unit: test.oxygenUptakeUnit ?? 'ml/min', align }]
        : []),
    ],
    rows: found.map(({ name, claim, intensity, digits }, i) => ({
      name: `${claim}, ${name}`,
      at: bareIntensity(intensity, display, digits),
      ...valueTexts(values[i]!),
    })),
    ...(warnings.length > 0 && { note: warnings.join(' ') }),
  });
}

const valueTexts = ({ heartRate, heartRateShare, rpe, oxygenUptake }: ValuesAt) => ({
  heartRate: heartRate?.toFixed(0) ?? '–',
  share: heartRateShare === null ? '–' : percentWords(heartRateShare),
  rpe: rpe?.toFixed(1) ?? '–',
  oxygen: oxygenUptake?.toFixed(oxygenUptake < 100 ? 1 : 0) ?? '–',
});
