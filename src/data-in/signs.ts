import type { Sign } from '../physiology/training/session.ts';
import type { Marks } from './marks.ts';

/** How each sign may be written; the first word that is found decides. */
const SPELLINGS: readonly [Sign, RegExp][] = [
  ['chest pain', /\bchest\b|\bangina\b/],
  ['fainting or dizziness', /\bfaint|\bpassed out\b|\bblack(ed)? ?out\b|\bcollapse|\bdizz|\blight-?headed/],
  ['palpitations', /\bpalpitation|\birregular (pulse|heart|beat)|\bheart (racing|flutter)/],
  [
    'unusual breathlessness',
    /\b(unusual|severe|sudden) (breathless|short)|\bbreathless|\bshort(ness)? of breath|\bwheez/,
  ],
  [
    'could not finish',
    /\bnot finish|\bnot complete|\bunfinished\b|\bgave up\b|\bgiven up\b|\bstopped\b|\bdnf\b|\bcut short\b/,
  ],
  ['nausea', /\bnause|\bsick\b|\bvomit|\bqueasy\b/],
  ['tingling', /\btingl|\bnumb/],
  ['breathing out of control', /\bbreath/],
  ['loss of form', /\bform\b|\btechnique\b|\bsloppy\b|\bfalling apart\b/],
];
/** How work at threshold feels to anybody: no sign, and no slip of the key for one. */
const ORDINARY =
  /^(very |quite |rather |somewhat |a (bit|little) )?((heavy|tired|burning|sore|stiff) (legs?|thighs?|calf|calves|muscles?)|(legs?|thighs?|calf|calves|muscles?) (were |felt |are )?(very |a bit )?(heavy|tired|burning|sore|stiff)|tired|hard|tough|sweaty|thirsty)$/;
const NOTHING = /^(none|no|nothing|ok|okay|fine|-+|–|—|n\/?a)?$/;

/** The signs that a table understands, for messages and help. */
export const SIGN_NAMES: readonly Sign[] = SPELLINGS.map(([sign]) => sign);

/**
 * The signs in one entry, several apart by semicolon, plus or comma. What is not understood is a problem and not passed
 * over: a chest pain with a slip of the key must not be lost.
 */
export function readSigns(text: string, column: number, row: number, marks: Marks): Sign[] {
  if (NOTHING.test(text.trim().toLowerCase())) return [];
  const whole = text.replace(/pins and needles/gi, 'tingling');
  return whole.split(/[;+,/&]|\b(?:and|but)\b/i).flatMap((part) => {
    const word = part.trim().toLowerCase();
    if (NOTHING.test(word)) return [];
    const found = SPELLINGS.find(([, spelling]) => spelling.test(word));
    if (found) return /^(no|not any|without)\b/.test(word) ? [] : [found[0]];
    if (ORDINARY.test(word)) {
      marks.note(`"${part.trim()}" is kept and counts for nothing: it goes with such work`, column, row);
      return [];
    }
    marks.problem(
      `"${part.trim()}" is no sign known here; expected ${SIGN_NAMES.join(', ')}, or nothing`,
      column,
      row,
    );
    return [];
  });
}
