// A new thread of Node 20 does not know TypeScript, whatever the main thread was started with.
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
