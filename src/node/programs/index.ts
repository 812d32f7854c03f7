export { chromiumFor, findChromium } from './find-chromium.ts';
export { aptLine, canInstall, installWithApt, mayNotInstall } from './install.ts';
export { launchChromium } from './launch-chromium.ts';
export { loadSolver } from './load-solver.ts';
export { onPath } from './on-path.ts';
export { setUp } from './set-up.ts';
