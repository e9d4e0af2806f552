import { CONDITION_EFFECTS, type Condition } from '../physiology/training/conditions.ts';
import { type Toggle, toggle } from '../view/controls.ts';

/** A switch for one thing that was unusual on the day. */
interface ConditionSwitch extends Toggle {
  condition: Condition;
}

/** A switch for a condition of the day; off at first. Its help is what the condition does, with the source. */
export function conditionSwitch(condition: Condition): ConditionSwitch {
  const { name, effect, source } = CONDITION_EFFECTS[condition];
  return { ...toggle({ label: name, value: false, about: { says: effect, source } }), condition };
}

const isConditionSwitch = (item: unknown): item is ConditionSwitch =>
  typeof item === 'object' && item !== null && 'condition' in item && 'control' in item;

/** Which conditions are switched on; a group may be all that a cell exports. */
export const conditionsOf = (group: object): Partial<Record<Condition, boolean>> =>
  Object.fromEntries(
    Object.values(group)
      .filter(isConditionSwitch)
      .map(({ condition, value }) => [condition, value]),
  );
