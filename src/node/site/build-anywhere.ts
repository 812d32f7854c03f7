import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import type { AstroAdapter } from 'astro';
import type { Plugin } from 'vite';

// Astro (7.3) writes the program that makes the pages into the folder that the command was called in, `.astro/`, and
// that program looks for its packages from there. What stands here keeps both in their places, so that a build writes
// nothing into the current folder, works from any, and two of them do not meet.

/** Has the program written where `build.server` says: only an adapter may say so. It adapts nothing. */
export const BUNDLED_HERE: AstroAdapter = {
  name: 'liftside',
  entrypointResolution: 'auto',
  adapterFeatures: { buildOutput: 'static', preserveBuildServerDir: true },
  supportedAstroFeatures: { staticOutput: 'stable', sharpImageService: 'stable' },
};

/** The program holds its packages. */
export const SELF_CONTAINED = { environments: { prerender: { resolve: { noExternal: true as const } } } };

/** The solver loads a file that lies beside it, so that it stays where it is and is imported from there. */
export const solverInPlace: Plugin = {
  name: 'liftside-solver-in-place',
  enforce: 'pre',
  applyToEnvironment: ({ name }) => name === 'prerender',
  resolveId: (id) =>
    id === 'highs'
      ? { id: pathToFileURL(createRequire(import.meta.url).resolve('highs')).href, external: true }
      : undefined,
};
