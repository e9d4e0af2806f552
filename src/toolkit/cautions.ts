/** One group of cautions: shown where a test is entered, and on every shared page. */
export interface Caution {
  title: string;
  points: readonly string[];
}

/**
 * What anybody who takes blood or drives an athlete to exhaustion has to mind. Short on purpose; it defers to
 * local rules and to licensed people. The documents are named for looking up, quoted from none (from memory).
 */
export const CAUTIONS: readonly Caution[] = [
  {
    title: 'Before the test',
    points: [
      'Screen the athlete with a readiness questionnaire; no test with fever, infection or new chest complaints.',
      'Get informed consent; with minors also that of a guardian.',
      'For a test to exhaustion: two people present, an emergency plan, a defibrillator at hand.',
      'With heart, lung or metabolic disease, pregnancy, or doubt: a doctor decides first.',
    ],
  },
  {
    title: 'Taking blood',
    points: [
      'Fresh gloves for each athlete, single-use lancets that lock, never a shared pricking device.',
      'Clean with alcohol and let it dry; wipe off sweat and the first drop; do not squeeze.',
      'Lancets and strips go into a sharps box; clean surfaces; staff vaccinated against hepatitis B.',
      'Not without supervision with blood thinners, a bleeding disorder, infected skin, or a history of fainting.',
    ],
  },
  {
    title: 'Stop at once',
    points: [
      'Chest pain, faintness, confusion, pale or blue skin, irregular pulse, a heart rate that stops rising, wheezing.',
      'When the athlete wants to stop, for any reason, and when equipment fails.',
      'Then cool down actively for five minutes or more and stay with the athlete.',
    ],
  },
  {
    title: 'What this is not',
    points: [
      'Not a medical device and not a diagnosis: it describes a training test.',
      'Local law and your own laboratory, club or federation rules come first.',
      'Lactate readings are health data: use a code instead of a name and keep them safe.',
    ],
  },
];

/** Where the rules above are laid down in full (titles from memory). */
export const CAUTION_SOURCES =
  'WHO guidelines on drawing blood: best practices in phlebotomy (2010); CLSI GP42, collection of capillary blood; ' +
  'ACSM Guidelines for Exercise Testing and Prescription; PAR-Q+; ESC Guidelines on sports cardiology (2020); ' +
  'local rules on blood-borne pathogens.';

/** The cautions as Markdown, for a cell. */
export const cautionsMarkdown = (): string =>
  [
    ...CAUTIONS.map(
      ({ title, points }) => `#### ${title}\n${points.map((point) => `- ${point}`).join('\n')}`,
    ),
    `*In full: ${CAUTION_SOURCES}*`,
  ].join('\n\n');
