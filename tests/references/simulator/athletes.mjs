// The simulator as it was written before this project, frozen here to make athletes.json (only laid out anew): plain ES module, no dependencies.
// Only its simulator part; run: node athletes.mjs > athletes.json
export const KOX = 0.0631,
  KGLY = 1.331,
  KEL = 3.0,
  CLA = 0.02049; // Mader & Heck 1986 constants (from memory)
export const cyclist = {
  name: 'trained cyclist',
  mass: 72,
  VO2max: 65,
  VO2rest: 5.0,
  VLamax: 0.42,
  r0: 0.095,
  kx: 0.4,
  kg: 0.02,
  f: 0.35,
  Vrel: 0.4,
  tau: 32 / 60,
  Ki: 22,
  nI: 4,
  LmStop: 19,
  demand: (w) => 7.0 + (10.8 * w) / 72,
  unit: 'W',
  rest: 'rest',
};
export const runner = {
  name: 'recreational runner',
  mass: 75,
  VO2max: 48,
  VO2rest: 4.5,
  VLamax: 0.48,
  r0: 0.09,
  kx: 0.4,
  kg: 0.02,
  f: 0.35,
  Vrel: 0.4,
  tau: 40 / 60,
  Ki: 22,
  nI: 4,
  LmStop: 17,
  demand: (v) => 3.5 + (0.2 * v * 1000) / 60,
  unit: 'km/h',
};
export function prod(A, V, Lm) {
  const x = Math.min(V / A.VO2max, 0.985);
  const adp = Math.sqrt((KOX * x) / (1 - x));
  return (60 * A.VLamax) / (1 + KGLY / adp ** 3) / (1 + (Lm / A.Ki) ** A.nI);
}
export const cmax = (A, V) => (CLA * V) / A.Vrel;
function deriv(A, dem, s, o) {
  const [V, Lm, Lb] = s;
  const p = prod(A, V, Lm);
  const C = cmax(A, V) / (1 + KEL / (Lb * Lb)) + A.kg * Lb;
  const x = A.kx * (Lm - Lb);
  o[0] = (Math.min(dem, 0.985 * A.VO2max) - V) / A.tau;
  o[1] = (p - x) / A.f;
  o[2] = (x + A.r0 - C) / (1 - A.f);
}
export function step(A, dem, s, dt) {
  const k1 = [0, 0, 0],
    k2 = [0, 0, 0],
    k3 = [0, 0, 0],
    k4 = [0, 0, 0],
    t = [0, 0, 0];
  deriv(A, dem, s, k1);
  for (let i = 0; i < 3; i++) t[i] = s[i] + (dt / 2) * k1[i];
  deriv(A, dem, t, k2);
  for (let i = 0; i < 3; i++) t[i] = s[i] + (dt / 2) * k2[i];
  deriv(A, dem, t, k3);
  for (let i = 0; i < 3; i++) t[i] = s[i] + dt * k3[i];
  deriv(A, dem, t, k4);
  for (let i = 0; i < 3; i++) s[i] += (dt / 6) * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
  return s;
}
export function restState(A) {
  const s = [A.VO2rest, 1, 1];
  for (let i = 0; i < 20000; i++) step(A, A.VO2rest, s, 0.05);
  return s;
}
const DT = 1 / 30; // 2 s in minutes
export function constant(A, I, min, s0, marks) {
  const s = (s0 || restState(A)).slice();
  const out = {};
  const n = Math.round(min / DT);
  for (let i = 1; i <= n; i++) {
    step(A, A.demand(I), s, DT);
    const t = i * DT;
    for (const m of marks) if (Math.abs(t - m) < DT / 2) out[m] = s[2];
  }
  return { s, out };
}
export function mlss30(A, lo, hi) {
  const r = restState(A);
  for (let k = 0; k < 50; k++) {
    const m = (lo + hi) / 2;
    const { out } = constant(A, m, 30, r, [10, 30]);
    if (out[30] - out[10] > 1) hi = m;
    else lo = m;
  }
  const { out } = constant(A, lo, 30, r, [10, 30]);
  return { I: lo, L10: out[10], L30: out[30] };
}
export function mlssInf(A, lo, hi) {
  // uninhibited production + r0 = max elimination
  for (let k = 0; k < 60; k++) {
    const m = (lo + hi) / 2,
      V = A.demand(m);
    if (prod(A, V, 0) + A.r0 > cmax(A, V)) hi = m;
    else lo = m;
  }
  return lo;
}
export function steady(A, I, T = 30) {
  return constant(A, I, T, null, [T]).out[T];
}
export function stepTest(A, { start, inc, stage, pause = 0, maxStages = 25 }) {
  const s = restState(A);
  const base = s[2];
  const pts = [];
  let t = 0;
  const trace = [[0, base]];
  for (let k = 0; k < maxStages; k++) {
    const I = start + k * inc;
    const dem = A.demand(I);
    const n = Math.round(stage / DT);
    let stopped = null;
    for (let i = 1; i <= n; i++) {
      step(A, dem, s, DT);
      t += DT;
      if (s[1] >= A.LmStop) {
        stopped = i * DT;
        break;
      }
    }
    trace.push([t, s[2]]);
    if (stopped !== null) {
      pts.push({ I, L: s[2], Lm: s[1], done: stopped / stage, t });
      break;
    }
    pts.push({ I, L: s[2], Lm: s[1], done: 1, t });
    if (pause) {
      const _q = s.slice();
      const np = Math.round(pause / DT);
      for (let i = 0; i < np; i++) {
        step(A, A.VO2rest, s, DT);
        t += DT;
      }
    }
  }
  const rec = [];
  const s2 = s.slice();
  const tend = t;
  for (let i = 1; i <= Math.round(20 / DT); i++) {
    step(A, A.VO2rest, s2, DT);
    if (i % 30 === 0) rec.push([t + i * DT, s2[2]]);
  }
  const last = pts[pts.length - 1];
  const Ipeak = last.I - inc + inc * last.done;
  return { base, pts, rec, tend, Ipeak };
}

// ---------- fixture ----------
const minutes = [5, 10, 15, 20, 25, 30];
const of = (A, lo, hi, unit, start, inc) => {
  const m = mlss30(A, lo, hi);
  const tests = [3, 4, 5, 8].map((stage) => {
    const { base, pts, rec, Ipeak } = stepTest(A, { start, inc, stage });
    return {
      stage,
      rest: base,
      intensity: pts.map((p) => p.I),
      lactate: pts.map((p) => p.L),
      minutes: pts.map((p) => p.done * stage),
      peak: Ipeak,
      recovery: [1, 2, 3, 5, 7, 10, 15, 20].map((at) => rec[at - 1][1]),
    };
  });
  const bouts = [0.9, 0.95, 1, 1.03, 1.06, 1.1].map((share) => {
    const { out } = constant(A, share * m.I, 30, null, minutes);
    return { share, lactate: minutes.map((at) => out[at]) };
  });
  return { unit, start, increment: inc, steadyState: m, theory: mlssInf(A, lo, hi), tests, minutes, bouts };
};
console.log(
  JSON.stringify({
    provenance: {
      source:
        'a simulator written before this project and apart from it, after Mader & Heck 1986 and Zouloumian & Freund 1981 (constants from memory)',
      made: 'node athletes.mjs > athletes.json, 2026-11-25',
      digits: 'doubles',
    },
    cyclist: of(cyclist, 150, 400, 'W', 100, 40),
    runner: of(runner, 5, 15, 'km/h', 6, 1),
  }),
);
