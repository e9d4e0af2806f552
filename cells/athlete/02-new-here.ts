import { onlyLive, prose } from '#hourline';

export default onlyLive(prose`
  **New here?** Go through this page in eight steps:
  [your first five minutes](cell:158-first-minutes).
`);
