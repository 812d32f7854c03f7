export { addressFrom, relativePage, relativeStyles } from './addresses.ts';
export { type ArchiveEntry, archiveProblem, isLitter } from './archive-rules.ts';
export { type Contents, lastDayNamed, packageContents } from './contents.ts';
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
export type { Choose, Compared } from './merge.ts';
export { nameClashes, packageNameReason } from './names.ts';
export { readMePage } from './read-me.ts';
export { readSums, sumsText } from './sums.ts';
export { filesNamedIn, isContentText, planUnpack, type UnpackPlan } from './unpack-plan.ts';
