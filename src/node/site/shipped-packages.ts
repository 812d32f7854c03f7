import type { Plugin } from 'vite';

/** Which packages have code or fonts in what a build makes for browsers: whoever gives it out has to name them. */
export class ShippedPackages {
  readonly #names = new Set<string>();

  /** Sees every script that is meant for browsers, and every file that a style sheet brings. */
  plugin(): Plugin {
    const see = (paths: readonly string[]) => {
      for (const path of paths) this.#see(path);
    };
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

  #see(path: string): void {
    const [, name] = /.*[\\/]?node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(path) ?? [];
    if (name !== undefined) this.#names.add(name.replaceAll('\\', '/'));
  }

  /** Names of packages, in order. */
  get names(): readonly string[] {
    return [...this.#names].toSorted();
  }
}
