import { formatIntensity, THIN_SPACE, withUnit } from '../base/format.ts';
import type { NextSession, Reps } from '../physiology/training/nextSession.ts';
import { folded, inShort, notice, prose, type StackView, stack } from '../view/view.ts';
import { type Display, heartRateWords, lactateWords, percentWords } from './display.ts';

interface ShowNext {
  display: Display;
  /** Whether lactate will be taken. */
  meter: boolean;
}

/** The next session as one card to take along; who has to see a doctor first gets no session. */
export function showNextSession(plan: NextSession, options: ShowNext): StackView {
  if (plan.when === 'doctor') return inShort(notice('problem', 'No session yet', DOCTOR));
  return stack(
    inShort(
      notice('note', titleOf(plan, options.display), pointsOf(plan, options).join('\n')),
      notice('caution', 'Stop, whatever the figures say', STOP),
    ),
    folded(
      'Where this comes from',
      prose`${reasonsOf(plan)
        .map((reason) => `- ${reason}`)
        .join('\n')}`,
    ),
  );
}

const DOCTOR =
  'The last session had a sign that is no training question. Until a doctor has seen the athlete there is nothing to plan.';

const STOP =
  'Nausea, tingling, loss of form, breathing out of control: stop for today. **Chest pain or pressure, faintness, ' +
  'palpitations, unusual breathlessness: stop, call for help, and see a doctor before training again.** This plan is for a ' +
  'healthy athlete who is used to such work; a doctor and a licensed coach go before it.';

const repsWords = ({ count, minutes }: Reps) => `${count} × ${withUnit(String(minutes), 'min')}`;

/** `Next session: 4 × 8 min at 261–268 W`. */
function titleOf(plan: NextSession, display: Display): string {
  const first = plan.when === 'rest' ? 'Next session, after 48 easy hours' : 'Next session';
  const at = plan.intensity === null ? 'by feel' : `at ${rangeText(plan.intensity, display)}`;
  return `${first}: ${repsWords(plan.reps)} ${at}`;
}

/** Steps that an intensity is planned in, W and km/h; rounded into the range. */
const STEPS = { power: 1, speed: 0.1 } as const;

function rangeText(
  { from, to }: { from: number; to: number },
  display: Display,
  unit = display.unit as Display['second'],
): string {
  const step = STEPS[display.axis];
  // A hair of slack: 10.2 / 0.1 is 101.99999999999999 in binary.
  const [low, high] = [Math.ceil(from / step - 1e-9) * step, Math.floor(to / step + 1e-9) * step];
  const words = (value: number) =>
    formatIntensity(value, display.axis, unit!, { bodyMass: display.bodyMass });
  return low >= high ? words(high) : `${words(low).split(THIN_SPACE)[0]}–${words(high)}`;
}

function pointsOf(plan: NextSession, { display, meter }: ShowNext): string[] {
  const { exertion, restMinutes, heartRate } = plan;
  return [
    ...intensityPoints(plan, display),
    `- **Between reps** ${withUnit(String(restMinutes), 'min')} easy.`,
    `- **It should feel** ${exertion.from}–${exertion.to} (${exertion.scale === 'CR10' ? 'CR10' : 'Borg 6–20'}); at the end three or four more reps should be possible.`,
    heartRate === null
      ? '- **Heart rate** more than 5 % above the first rep at the same minute: ease.'
      : `- **Heart rate** up to about ${heartRateWords(heartRate)}; more than 5 % above the first rep at the same minute: ease.`,
    meter
      ? samplePoint(plan)
      : '- **Without a meter** speaking a short sentence must stay possible to the end of every rep.',
    '- **Ask yourself in every rep:** could I hold this for an hour? Could I do more of this rep? Are form and breathing steady? One no: ease by 3 %. Two: stop for today.',
    ...(plan.longReps === null
      ? []
      : [
          `- **Or** ${repsWords(plan.longReps)}, up to 20 min: only while it stays no more than reasonably uncomfortable, with three or four more reps in reserve.`,
        ]),
  ];
}

function intensityPoints(
  { intensity, reversed, stay, unsure, retest }: NextSession,
  display: Display,
): string[] {
  const why = reversed
    ? 'the chosen first threshold lies above the second, so that nothing is planned by either. Choose other methods, or test again.'
    : 'this test gives no second threshold to plan by.';
  if (intensity === null) return [`- **Intensity** by feel: ${why}`];
  const second = display.second === null ? '' : ` (${rangeText(intensity, display, display.second)})`;
  return [
    `- **Intensity** ${rangeText(intensity, display)}${second}: ${stayWords(stay!)}`,
    ...(unsure ? ['- **The threshold is not well known:** keep the first rep at the lower end.'] : []),
    ...(retest ? ['- **Two sessions were below:** test again before going higher.'] : []),
  ];
}

/** Draws that all agree know only the errors that are set: that is no certainty. */
const stayWords = (stay: number): string =>
  stay < 1
    ? `at its upper end the chance of being at or under the second threshold is ${percentWords(stay)}.`
    : 'at or under the second threshold in every draw: no error set here reaches that far, which does not make it certain.';

function samplePoint({ readings, reps }: NextSession): string {
  const [ease, stop] = [readings.ease, readings.stop].map((lactate) => lactateWords(lactate, 1));
  return (
    `- **Lactate** at the end of rep 2 and of rep ${reps.count}, always the same second, finger or ear dried first. From ` +
    `${ease}: ease by 3 %. From ${stop}, or more than 1 above the sample before: stop for today.`
  );
}

function reasonsOf({ intensity, reps }: NextSession): string[] {
  const limited =
    intensity?.limitedBy === 'last session'
      ? 'The intensity follows from what the last session was; the error of the threshold would allow more.'
      : 'The intensity is the highest that the error of the threshold allows, by the test and the last session together; a larger error puts it lower, and so does asking for a higher chance.';
  return [
    ...(intensity === null ? [] : [limited]),
    `Reps of 6 to 12 min are usual, 15 to 20 min only with some left (common practice); these ${repsWords(reps)} follow the last session: more reps come before longer ones, longer ones before harder ones (our rule).`,
    'The readings that mean ease and stop are the review read backwards: as likely as not above the threshold, and clearly above. Elite runners keep such sessions within 2 to 4.5 mmol/L (Casado 2023, Int J Environ Res Public Health 20:3782, abstract).',
    'At the second threshold most people can hold on for about an hour, and most people overestimate what they can hold (common practice).',
    'Heart rate lags and drifts with heat and loss of water, and is the looser limit (Coyle & González-Alonso 2001, Exerc Sport Sci Rev 29:88–92, from memory).',
  ];
}
