/// <reference types="astro/client" />

interface ImportMetaEnv {
  /** True in a page of the built site, false in one that the local site makes. */
  readonly BUILT: boolean;
  /** The site being built goes to a web server, where its lessons can be kept on a device. */
  readonly KEEPABLE: boolean;
}
