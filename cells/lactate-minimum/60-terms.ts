import { folded, prose, termList } from '#hourline';

export default [
  prose`## Terms`,
  folded(
    'Each in a sentence, with its source',
    prose`${termList('test', 'errors')}`,
  ),
];
