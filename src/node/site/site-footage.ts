import { footageHandler } from './footage.ts';
import { openSite } from './open-site.ts';

/** Answers requests for the footage of the site that is open, by its path below the footage. */
export const siteFootage = footageHandler(openSite);
