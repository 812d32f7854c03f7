// What Astro bundles with the program of the pages: their routes, and what each loads.
declare module 'virtual:astro:manifest' {
  import type { SSRManifest } from 'astro';
  export const manifest: SSRManifest;
}
