import { describe, expect, test, vi } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { MODELS } from '../../src/physiology/curves/index.ts';
import { BENCH, type ErrorModel, HANDHELD } from '../../src/physiology/errorModel.ts';
import { MOST_AT_ONCE } from '../../src/physiology/kernel/compiledDraws.ts';
import { kernel } from '../../src/physiology/kernel/kernel.ts';
import { Answer } from '../../src/physiology/methods/answer.ts';
import { METHODS, type MethodOptions, methodsFor } from '../../src/physiology/methods/index.ts';
import { PreparedMethods, withDefaults } from '../../src/physiology/preparedMethods.ts';
import { readingDraws, writeOthers } from '../../src/physiology/readingDraws.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { CODE_NUMBERS } from '../../src/physiology/refusal.ts';
import { Sampler } from '../../src/physiology/samplingError.ts';
import type { CurveId, Readings, StepTest } from '../../src/physiology/stepTest.ts';
import { stepTest } from './stepTests.ts';

/** The draws of the compiled kernel are those of its sources as they stand: same numbers, same refusals. */

const random = new Random(20261130);
const among = <T>(choices: readonly T[]): T => choices[Math.floor(random.uniform() * choices.length)]!;

/** An invented test of 4 to 20 stages, now and then of odd shape, with repeated stages and samples at rest and after. */
function anyTest(): StepTest {
  const running = random.uniform() < 0.4;
  const stages = 4 + Math.floor(random.uniform() * 17);
  const step = running ? 1 : 25;
  const even = random.uniform() < 0.6;
  const x: number[] = [];
  for (let i = 0, at = running ? 8 : 100; i < stages; i++, at += step * (even ? 1 : 0.4 + random.uniform())) {
    x.push(Math.round(at * 10) / 10);
  }
  if (random.uniform() < 0.3) x.push(x[among([0, 1, 2])]!);
  const steep = 2 + 12 * random.uniform();
  const [low, high] = [Math.min(...x), Math.max(...x)];
  const y = x.map((at) => {
    const share = (at - low) / (high - low);
    return Math.max(0.4, 1 + 0.02 * Math.exp(steep * share * 0.55) + 0.4 * random.normal() * share);
  });
  return stepTest(x, y, {
    sport: running ? 'running' : 'cycling',
    axis: running ? 'speed' : 'power',
    stageMinutes: 3,
    restLactate: random.uniform() < 0.5 ? 0.9 : null,
    ...(random.uniform() < 0.3 && {
      recovery: {
        mode: null,
        samples: [1, 3, 5, 8].map((minute, row) => ({
          row,
          minute,
          lactate: y.at(-1)! * (1.2 - 0.09 * minute),
        })),
      },
    }),
  });
}

const CURVES = [null, ...(Object.keys(MODELS) as CurveId[])];

const anyOptions = (readings: Readings): MethodOptions =>
  withDefaults({
    curve: among(CURVES),
    baseline: among(readings.restLactate === null ? ['first', 'lowest'] : ['rest', 'lowest-two']),
    ends: among(['fitted', 'measured']),
    anchor: among(['previous-stage', 'baseline']),
    slope: readings.axis === 'power' ? 0.03 : null,
    visual: { LT1: [readings.x[1]!, readings.x[2]!], LT2: [readings.x[2]!, readings.x[3]!] },
  });

/** Factor of intensity, and intensity and number of refusal of every method, in every draw by the sources as they stand. */
function uncompiled(given: Readings, options: MethodOptions, draws: number, seed: number) {
  const readings = {
    ...given,
    recovery: given.recovery && { ...given.recovery, lactate: given.recovery.lactate.slice() },
  };
  const prepared = new PreparedMethods(readings, methodsFor(readings, options), options);
  const drawn = readingDraws(given, HANDHELD, new Random(seed));
  const slot = new Answer();
  return Array.from({ length: draws }, () => {
    drawn.next();
    writeOthers(drawn.others, readings);
    prepared.fit(drawn.y);
    const answers = prepared.entries.map((_, m) => {
      prepared.answer(m, drawn.y, slot);
      return { x: slot.x, code: slot.code === null ? 0 : CODE_NUMBERS[slot.code] };
    });
    return { scale: drawn.scale, answers };
  });
}

/** Methods that answered some draw of some test. */
const answered = new Set<string>();

describe('draws of the compiled kernel', () => {
  test.each(Array.from({ length: 80 }, (_, i) => i))('are those of its sources, test %i', (seed) => {
    const readings = usableReadings(anyTest(), { toExhaustion: true });
    const options = anyOptions(readings);
    const sampler = new Sampler(readings, { options, error: HANDHELD, seed });
    sampler.run(150);
    const { joint } = sampler.summary();
    const plain = uncompiled(readings, options, 150, seed);
    const ids = [...joint.methods.keys()];
    expect(ids).toEqual(methodsFor(readings, options).map(({ id }) => id));
    const scales = plain.map(({ scale }, d) => Math.abs(joint.scale[d]! / scale - 1));
    expect(Math.max(...scales)).toBeLessThan(1e-12);
    for (const [m, id] of ids.entries()) {
      const { x, code } = joint.methods.get(id)!;
      expect([...code], `codes of ${id}`).toEqual(plain.map(({ answers }) => answers[m]!.code));
      const apart = plain.map(({ answers }, d) => (code[d] === 0 ? Math.abs(x[d]! / answers[m]!.x - 1) : 0));
      expect(Math.max(...apart), id).toBeLessThan(1e-9);
      if (code.includes(0)) answered.add(id);
    }
  });

  test('every method of a step test was among them, and answered', () => {
    const wanted = METHODS.filter(({ protocol, off }) => protocol === 'step' && !off).map(({ id }) => id);
    expect(wanted.filter((id) => !answered.has(id))).toEqual([]);
  });

  test('go on where they stopped, whoever had the kernel in between and however they are cut', () => {
    const options = { error: HANDHELD, seed: 7 };
    const [one, other] = [anyTest(), anyTest()].map((each) => usableReadings(each, { toExhaustion: true }));
    const whole = new Sampler(one!, options);
    whole.run(2 * MOST_AT_ONCE + 11);
    const cut = new Sampler(one!, options);
    const between = new Sampler(other!, options);
    for (const draws of [1, 2, MOST_AT_ONCE, MOST_AT_ONCE + 8]) {
      cut.run(draws);
      between.run(3);
    }
    expect(cut.summary().joint).toEqual(whole.summary().joint);
  });

  test('from other errors of the same readings need no kernel built anew, and are those of one', () => {
    const other = usableReadings(anyTest(), { toExhaustion: true });
    for (let k = 0; k < 20; k++) {
      const readings = usableReadings(anyTest(), { toExhaustion: true });
      const draw = (given: Readings, error: ErrorModel, seed: number) => {
        const sampler = new Sampler(given, { error, seed });
        sampler.run(300);
        return sampler.summary().joint;
      };
      draw(other, HANDHELD, 1);
      const anew = draw(readings, BENCH, 2);
      draw(other, HANDHELD, 1);
      draw(readings, HANDHELD, 3);
      const resets = vi.spyOn(kernel(), 'reset');
      expect(draw(readings, BENCH, 2)).toEqual(anew);
      expect(resets).not.toHaveBeenCalled();
      resets.mockRestore();
    }
  });

  test('of readings that do not fit together are refused, and the next ones are not the worse for it', () => {
    const readings = usableReadings(anyTest(), { toExhaustion: true });
    const draw = (given: Readings) => {
      const sampler = new Sampler(given, { methods: ['first-rise'], error: HANDHELD, seed: 3 });
      sampler.run(5);
      return sampler.summary().joint;
    };
    const before = draw(readings);
    for (const given of [
      { ...readings, y: readings.y.slice(1) },
      { ...readings, count: readings.count.slice(1) },
    ]) {
      expect(() => draw(given)).toThrow(/one lactate and one count for each intensity/);
    }
    expect(draw(readings)).toEqual(before);
  });
});
