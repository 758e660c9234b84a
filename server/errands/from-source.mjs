/** Starts the thread from the sources, as tests and development run them: a thread has no loader but its own. */
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
