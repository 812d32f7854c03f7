import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { type Plugin, rolldown } from 'rolldown';

/** Scripts of a page as one that runs when the page is opened from a folder, and the style sheets they would fetch. */
export interface ClassicScript {
  readonly code: string;
  /** Paths of style sheets in the site, as `_astro/open-player.css`. */
  readonly styles: readonly string[];
}

/** The builder's own loader of scripts and their style sheets, which asks a server. */
const LOADER = /(?:^|[\\/])preload-helper\.[^\\/]*\.js$/;

/**
 * The module scripts of a page of a built site as one classic script. Browsers load no module from a folder, so what a
 * page loads at once and what it loads later are bundled, from what the site's builder has made of them: the code is
 * that of the site. What a reader's browser keeps stands under the name of the package, since all pages that are opened
 * from folders share one store.
 *
 * @param entries absolute paths of its scripts, in the order of the page
 * @param keep name that what is kept in the browser stands under
 */
export async function classicScript(entries: readonly string[], keep: string): Promise<ClassicScript> {
  const styles = new Set<string>();
  const bundle = await rolldown({
    input: 'page',
    plugins: [entryOf(entries), withoutLoader(styles)],
    logLevel: 'silent',
  });
  try {
    const { output } = await bundle.generate({ format: 'iife', minify: true, codeSplitting: false });
    return { code: withOwnStore(output[0].code, keep), styles: [...styles] };
  } finally {
    await bundle.close();
  }
}

function entryOf(files: readonly string[]): Plugin {
  return {
    name: 'liftside-page',
    resolveId: (id) => (id === 'page' ? '\0page' : undefined),
    load: (id) => (id === '\0page' ? files.map((file) => `import ${JSON.stringify(file)};`).join('\n') : undefined),
  };
}

/** Everything is in one script, so nothing is left to load; style sheets stand in the page from the start. */
function withoutLoader(styles: Set<string>): Plugin {
  return {
    name: 'liftside-without-loader',
    async load(id) {
      if (id.startsWith('\0')) return undefined;
      const code = await readFile(id, 'utf8');
      if (!LOADER.test(id)) {
        for (const [path] of code.matchAll(/_astro\/[\w.~-]+\.css/g)) styles.add(path);
        return undefined;
      }
      const [, inside, outside] = /export\s*\{\s*([\w$]+) as ([\w$]+)\s*\}/.exec(code) ?? [];
      if (inside === undefined) throw new Error(`${basename(id)} of the site's builder is not what it was`);
      return `const ${inside} = (load) => load(); export { ${inside} as ${outside} };`;
    },
  };
}

function withOwnStore(code: string, keep: string): string {
  const name = JSON.stringify(`${keep} `);
  return `(function (localStorage) {
${code}
})({
  getItem: (key) => window.localStorage.getItem(${name} + key),
  setItem: (key, value) => window.localStorage.setItem(${name} + key, value),
  removeItem: (key) => window.localStorage.removeItem(${name} + key),
});
`;
}
