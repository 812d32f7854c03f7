import type { SiteLocale } from './locales.ts';

declare global {
  namespace App {
    /** What the components of a page are handed; `openSite` puts it there. */
    interface Locals {
      /** The language of the page. */
      locale: SiteLocale;
      /** What stands before the path of a page in its language: nothing at the root, else `es/`. */
      prefix: string;
      /** Path of the page below its prefix. */
      path: string;
      /** The language of what the shop wrote, where that is shown. */
      contentTag: string;
      /** The languages of the site, that of the root first. */
      locales: readonly [SiteLocale, ...SiteLocale[]];
    }
  }

  // What Vite puts in the place of `import.meta.env`; only a part of it is used in this room.
  interface ImportMetaEnv {
    BASE_URL: string;
  }
  interface ImportMeta {
    readonly env: ImportMetaEnv;
  }
}
