import { folded, prose, termList } from '#hourline';

const list = termList(
  'test',
  'errors',
  'session',
  'training',
);

export default [
  prose`## Terms`,
  folded(
    'Each in a sentence, with its source',
    prose`${list}`,
  ),
];
