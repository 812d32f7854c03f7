import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';
import { z } from 'zod';
import { OutsideFailure } from '../failure.ts';

const budgetSchema = z.object({ scriptBudget: z.object({ pageKiB: z.number(), laterKiB: z.number() }) });

interface Chunk {
  readonly entry: boolean;
  readonly imports: readonly string[];
  /** bytes, gzipped */
  readonly size: number;
}

/**
 * Weighs the scripts that a build makes, gzipped, against `scriptBudget` in package.json: `pageKiB` for what a page
 * loads at once, `laterKiB` for what is loaded when it is wanted, such as the player.
 */
export class ScriptSizes {
  readonly #chunks = new Map<string, Chunk>();

  /** Sees every chunk that is meant for browsers. */
  plugin(): Plugin {
    return {
      name: 'liftside-script-sizes',
      applyToEnvironment: ({ name }) => name === 'client',
      generateBundle: (_options, bundle) => {
        for (const item of Object.values(bundle))
          if (item.type === 'chunk')
            this.#chunks.set(item.fileName, {
              entry: item.isEntry,
              imports: item.imports,
              size: gzipSync(item.code).length,
            });
      },
    };
  }

  /** @throws OutsideFailure when a page's scripts weigh more than package.json allows, naming them */
  hold(): void {
    const file = resolve(import.meta.dirname, '../../../package.json');
    const { pageKiB, laterKiB } = budgetSchema.parse(JSON.parse(readFileSync(file, 'utf8'))).scriptBudget;
    const { page, later } = this.weigh();
    const over = [
      ...page
        .filter(({ size }) => size > pageKiB * 1024)
        .map(({ name, size }) => `${name} and what it needs: ${kib(size)} of ${pageKiB} KiB`),
      ...(later > laterKiB * 1024 ? [`scripts loaded later: ${kib(later)} of ${laterKiB} KiB`] : []),
    ];
    if (over.length)
      throw new OutsideFailure(
        `page scripts are over the budget in package.json\n${over.join('\n')}`,
        'every visitor loads them before a page answers: make them smaller, load them later, or raise scriptBudget there',
      );
  }

  /** Bytes gzipped: of each entry with all it loads at once, and of all the rest together. */
  weigh(): { readonly page: readonly { readonly name: string; readonly size: number }[]; readonly later: number } {
    const atOnce = new Set<string>();
    const page = [...this.#chunks]
      .filter(([, { entry }]) => entry)
      .map(([name]) => {
        const needed = this.#closure(name, new Set());
        for (const each of needed) atOnce.add(each);
        return { name, size: this.#sum(needed) };
      });
    return { page, later: this.#sum([...this.#chunks.keys()].filter((name) => !atOnce.has(name))) };
  }

  #closure(name: string, seen: Set<string>): Set<string> {
    if (seen.has(name)) return seen;
    seen.add(name);
    for (const next of this.#chunks.get(name)?.imports ?? []) this.#closure(next, seen);
    return seen;
  }

  #sum(names: Iterable<string>): number {
    return [...names].reduce((sum, name) => sum + (this.#chunks.get(name)?.size ?? 0), 0);
  }
}

function kib(bytes: number): string {
  return (bytes / 1024).toFixed(1);
}
