export { findChromium } from './find-chromium.ts';
export { canInstall, installWithApt } from './install.ts';
export { onPath } from './on-path.ts';
