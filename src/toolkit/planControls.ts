import { HARDEST_STAGE } from '../physiology/plausible.ts';
import { type NumberField, numberField, type Slider, slider, type Toggle, toggle } from '../view/controls.ts';
import type { Display } from './display.ts';

/** How sure the next session is to stay at or under the second threshold, in per cent. */
export const staySlider = (value: number): Slider =>
  slider({
    label: 'Chance of staying at or under',
    unit: '%',
    min: 50,
    max: 99,
    step: 1,
    value,
    about: {
      says: 'How sure the plan is to stay at or under the second threshold: higher is more careful.',
      source: 'our rule: nine in ten',
    },
  });

/** Whether lactate will be measured in the next session. */
export const withMeterToggle = (value: boolean): Toggle =>
  toggle({
    label: 'With a lactate meter',
    value,
    about: {
      says: 'With one the plan says which lactate means ease or stop; without it goes by heart rate, rating and signs.',
      source: 'our rule',
    },
  });

/** Length of a planned session, for its energy. */
export const sessionLengthField = (value: number): NumberField =>
  numberField({
    label: 'Length of the planned session',
    unit: 'min',
    min: 1,
    max: 1440,
    value,
    about: {
      says: 'What is usually taken in depends on how long it lasts.',
      source: 'Thomas, Erdman & Burke 2016, Med Sci Sports Exerc 48:543–568 (from memory)',
    },
  });

/** Intensity of a planned session, for its energy. */
export const sessionIntensityField = ({ axis, unit }: Display): NumberField =>
  numberField({
    label: 'Intensity, empty for the second threshold',
    unit,
    min: 0,
    max: HARDEST_STAGE[axis],
    step: axis === 'power' ? 1 : 0.1,
    value: null,
    about: {
      says: 'Energy and carbohydrate of the hour are reckoned for this intensity.',
      source: 'American College of Sports Medicine, metabolic equations (from memory)',
    },
  });
