import { LOADING } from './results/loading.ts';
import { MUTATING } from './results/mutating.ts';
import { RUNNING } from './results/running.ts';
import { STRUCTURE } from './results/structure.ts';

/**
 * What a hostile frame may send as the result of a cell, by name, as markup. It calls `run` when it runs, and asks for `there`
 * when it loads something. The kinds are those that sanitisers were got around with in public; the wording is ours.
 */
export type ResultAttacks = Record<string, (there: string, run: string) => string>;

const ALL: ResultAttacks = { ...RUNNING, ...LOADING, ...MUTATING, ...STRUCTURE };

export const RESULT_ATTACKS = Object.keys(ALL);

/** These need a sanitiser that changes what they mean. Taken as they are they are text, comments or nothing. */
export const HARMLESS_AS_THEY_ARE = new Set(
  'svg-desc-comment svg-desc-cdata entities-twice unquoted-slash'.split(' '),
);

/** The markup of an attack; it calls `ran(name)`, and asks the server for its name. */
export const resultAttack = (name: string, server: string): string =>
  ALL[name]!(`${server}/${name}`, `ran('${name}')`);
