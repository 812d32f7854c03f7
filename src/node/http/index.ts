export { jsonBody } from './body.ts';
export { closeServer } from './close-server.ts';
export { safely } from './safely.ts';
export { readTarget, type Target } from './target.ts';
