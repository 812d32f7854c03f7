export { checkPackage } from './check-package.ts';
export type { PackEntry } from './entry.ts';
export { openPackage } from './open-package.ts';
export { type PackageFiles, PackageRefused } from './package-files.ts';
export { prepareUnpacking, unpack } from './unpack.ts';
export { writeFolder } from './write-folder.ts';
export { writeZip } from './write-zip.ts';
