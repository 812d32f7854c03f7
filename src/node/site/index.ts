export { buildSite } from './build-site.ts';
export { ContentErrors } from './content-errors.ts';
export { devSite } from './dev-site.ts';

export { type Printed, printPaper } from './print-paper.ts';
export { type Served, serveSite } from './serve-site.ts';
export { siteConfig } from './site-config.ts';
export { openToPrint, pdfOf, readFromFolder, type SiteInBrowser } from './site-in-browser.ts';
