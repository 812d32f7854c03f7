import { resolve } from 'node:path';
import type { Plugin } from 'vite';

/** Which packages have code or fonts in what a build makes for browsers: whoever gives it out has to name them. */
export class ShippedPackages {
  readonly #home: string;
  readonly #folders = new Set<string>();

  /** @param home Liftside's own folder, which is left out, wherever it lies */
  constructor(home: string) {
    this.#home = resolve(home);
  }

  /** Sees every script that is meant for browsers, and every file that a style sheet brings. */
  plugin(): Plugin {
    const see = (paths: readonly string[]) => this.see(paths);
    return {
      name: 'liftside-shipped-packages',
      generateBundle(_options, bundle) {
        for (const item of Object.values(bundle)) {
          if (item.type === 'asset') see(item.originalFileNames);
          else if (this.environment.name === 'client') see(item.moduleIds);
        }
      },
    };
  }

  /** @param paths of modules that go out */
  see(paths: readonly string[]): void {
    for (const path of paths) this.#see(path);
  }

  #see(path: string): void {
    // The last such folder: packages may lie below packages, and Liftside itself may be one of them.
    const [folder] =
      /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/.exec(resolve(this.#home, path.replace('\0', ''))) ?? [];
    if (folder !== undefined && folder !== this.#home) this.#folders.add(folder);
  }

  /** Absolute paths of their folders. */
  get folders(): readonly string[] {
    return [...this.#folders];
  }
}
