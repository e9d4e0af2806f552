import type { StepTest } from '../physiology/stepTest.ts';
import {
  type Condition,
  type ConditionEffect,
  effectsOf,
  looksDepleted,
} from '../physiology/training/conditions.ts';
import { folded, type NoticeView, notice, prose, type Showable } from '../view/view.ts';

const PUSHES: Record<ConditionEffect['pushes'], string> = {
  higher: 'Thresholds read too high.',
  lower: 'Thresholds read too low.',
  either: 'Thresholds cannot be relied on.',
  little: 'Thresholds hardly move.',
};

/** What the day did to lactate, a notice for each condition; and whether the readings look like low stores. */
export function showDay(conditions: Partial<Record<Condition, boolean>>, test: StepTest): Showable {
  const effects = effectsOf(conditions);
  const depleted = looksDepleted(test) && !conditions['low-carbohydrate'];
  if (effects.length === 0 && !depleted)
    return notice(
      'good',
      'Nothing unusual on the day',
      'Keep food, rest, heat and caffeine the same from test to test.',
    );
  return [
    ...effects.map(effectNotice),
    depleted ? LOOKS_DEPLETED : null,
    folded(
      'Where this comes from',
      prose`${effects.map(({ name, source }) => `- **${name}.** *${source}*`).join('\n')}`,
    ),
  ];
}

const effectNotice = ({ name, pushes, effect, advice }: ConditionEffect): NoticeView =>
  notice(pushes === 'little' ? 'note' : 'caution', `${name}: ${PUSHES[pushes]}`, `${effect} ${advice}`);

const LOOKS_DEPLETED = notice(
  'caution',
  'Low lactate from start to end at a high exertion',
  'That can be low carbohydrate stores or a tired athlete; it is a hint, not a finding. Ask what was eaten and trained in the two days before.',
);
