import { prose, termList } from '#hourline';

export default [prose`## Terms`, termList('test', 'errors')];
