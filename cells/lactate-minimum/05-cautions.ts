import {
  cautionsMarkdown,
  folded,
  notice,
  prose,
} from '#hourline';

export default [
  notice(
    'caution',
    'Before you take blood or test to exhaustion',
    `Screen the athlete, keep to your local rules for blood
    and for exercise tests, stop at the first warning sign,
    and leave medical questions to a doctor. This workbook
    describes training; it makes no diagnosis.`,
  ),
  folded('All cautions', prose`${cautionsMarkdown()}`),
];
