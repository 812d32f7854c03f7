export { type BuildOptions, type Built, buildSite } from './build-site.ts';
export { ContentErrors } from './content-errors.ts';
export { devSite } from './dev-site.ts';
export { contentSchemas, idTypes } from './editor-help.ts';
export { printPaper } from './print-paper.ts';
export { type Served, serveSite } from './serve-site.ts';
export { type SiteOptions, siteConfig } from './site-config.ts';
