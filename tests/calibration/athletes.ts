import type { Random } from '../../src/numerics/random.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import type { Readings } from '../../src/physiology/stepTest.ts';
import { stepTest } from '../physiology/stepTests.ts';

/** Where true lactate comes from: a kind of athlete with a family of curves, all invented. */
export interface AthleteType {
  name: string;
  /** True lactate against the share of the tested range, 0 to 1. */
  curve(random: Random): (share: number) => number;
  /** Ends of the tested range, W or km/h. */
  range(random: Random): [number, number];
  sport: 'cycling' | 'running';
}

const between = (random: Random, low: number, high: number): number => low + (high - low) * random.uniform();

/** log(1 + eᶻ), a corner rounded off. */
const softplus = (z: number): number => Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z)));

export const ATHLETES: readonly AthleteType[] = [
  {
    name: 'trained cyclist, exponential',
    sport: 'cycling',
    curve: (random) => {
      const [base, growth, top] = [
        between(random, 0.8, 1.3),
        between(random, 3.5, 6.5),
        between(random, 6.5, 11),
      ];
      return (s) => base + ((top - base) * Math.expm1(growth * s)) / Math.expm1(growth);
    },
    range: (random) => {
      const start = between(random, 90, 140);
      return [start, start + between(random, 190, 260)];
    },
  },
  {
    name: 'elite runner, late bend',
    sport: 'running',
    curve: (random) => {
      const [base, bend, top] = [
        between(random, 0.7, 1.1),
        between(random, 0.6, 0.72),
        between(random, 6, 10),
      ];
      const width = between(random, 0.05, 0.09);
      const drift = between(random, 0.1, 0.4);
      const full = width * softplus((1 - bend) / width);
      return (s) => base + drift * s + ((top - base - drift) * width * softplus((s - bend) / width)) / full;
    },
    range: (random) => {
      const start = between(random, 12, 14);
      return [start, start + between(random, 6, 8)];
    },
  },
  {
    name: 'untrained, early rise',
    sport: 'cycling',
    curve: (random) => {
      const [base, growth, top] = [between(random, 1, 1.6), between(random, 1.8, 3), between(random, 8, 12)];
      return (s) => base + ((top - base) * Math.expm1(growth * s)) / Math.expm1(growth);
    },
    range: (random) => {
      const start = between(random, 50, 80);
      return [start, start + between(random, 120, 180)];
    },
  },
  {
    name: 'cold start, dip and two bends',
    sport: 'cycling',
    curve: (random) => {
      const [base, first, second] = [
        between(random, 0.9, 1.3),
        between(random, 0.35, 0.48),
        between(random, 0.68, 0.8),
      ];
      const [excess, top] = [between(random, 0.2, 0.6), between(random, 7, 11)];
      const [slope, width] = [between(random, 2.5, 4.5), 0.06];
      const bends = (s: number) => width * softplus((s - second) / width);
      const gentle = (s: number) => slope * width * softplus((s - first) / width);
      const steep = (top - base - gentle(1)) / bends(1);
      return (s) => base + excess * Math.exp(-s / 0.12) + gentle(s) + steep * bends(s);
    },
    range: (random) => {
      const start = between(random, 80, 120);
      return [start, start + between(random, 180, 240)];
    },
  },
];

/** Noise-free readings of one athlete of a type, at 5 to 10 stages of 3 to 5 minutes. */
export function truthOf(type: AthleteType, random: Random): Readings {
  const lactate = type.curve(random);
  const [start, end] = type.range(random);
  const stages = 5 + Math.floor(6 * random.uniform());
  const shares = Array.from({ length: stages }, (_, i) => i / (stages - 1));
  const test = stepTest(
    shares.map((s) => start + (end - start) * s),
    shares.map(lactate),
    {
      stageMinutes: 3 + Math.floor(3 * random.uniform()),
      ...(type.sport === 'running' && { sport: 'running', axis: 'speed' }),
    },
  );
  return usableReadings(test, { toExhaustion: true });
}
