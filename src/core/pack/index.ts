export { addressFrom, CLASSIC_ENDING, relativePage, relativeStyles } from './addresses.ts';
export { type ArchiveEntry, archiveProblem, isLitter } from './archive-rules.ts';
export { type Contents, captionsOf, lastDayNamed, packageContents } from './contents.ts';
export {
  MANIFEST_FILE,
  manifestText,
  PACKAGE_FOLDERS,
  PACKAGE_VERSION,
  type PackageManifest,
  packageSchema,
  READ_ME_FILE,
  readManifest,
  SUMS_FILE,
} from './manifest.ts';
export { type Choose, type Compared, type Decide, type Decision, isTable, mergeTable, type Sides } from './merge.ts';
export { nameClashes, packageNameReason } from './names.ts';
export { readMePage } from './read-me.ts';
export { readSums, sumsText } from './sums.ts';
export { differing, equal, mapOf, own, type Thing, type Things } from './things.ts';
export { filesNamedIn, isContentText, planUnpack, type UnpackPlan } from './unpack-plan.ts';
