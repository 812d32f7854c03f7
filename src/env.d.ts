/// <reference types="astro/client" />

interface ImportMetaEnv {
  /** True in a page of the built site, false in one that the local site makes. */
  readonly BUILT: boolean;
}
