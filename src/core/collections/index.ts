export { changesOf } from './changes-of.ts';
export {
  COLLECTION_FILE,
  MOST_ALL,
  MOST_MANIFEST,
  manifestYaml,
  readCollection,
  signedText,
  type Unsigned,
} from './manifest.ts';
export type { Comparison } from './merge-rows.ts';
export { type FileState, planUpdate, type UpdatePlan } from './plan-update.ts';
export { filesToShare, isSharedText } from './shareable.ts';
export { mayFollow, type Signed } from './trust.ts';
