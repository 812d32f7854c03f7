export { readKept } from './keep.ts';
export { fingerprintOf, makeKey, readKey } from './keys.ts';
export { filesOf, publish, versionBefore } from './publish.ts';
export { openFolder } from './sources.ts';
export { correctionsAfter, type Fetched, fetchCollection, planFetched, takeFetched } from './update.ts';
export type { Use } from './use.ts';
export { verifyCollection } from './verify.ts';
