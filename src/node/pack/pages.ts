import { hash } from 'node:crypto';
import { copyFile, mkdir, readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { addressFrom, PACKAGE_FOLDERS, READ_ME_FILE, relativePage, relativeStyles } from '../../core/pack/index.ts';
import { filesBelow } from '../files/index.ts';
import { FOOTAGE } from '../site/footage-paths.ts';
import { classicScript } from './classic-scripts.ts';

const PAGES = PACKAGE_FOLDERS.pages;
/** In a package the records of search are a script. */
const RECORDS = 'search.json';
/** In the first language a page lies at the root, in a further one below its tag. */
const inFirst = (file: string, languages: readonly string[]) => {
  const [first = '', ...rest] = file.split('/');
  return languages.includes(first) ? rest.join('/') : file;
};
const MODULE = /<script type="module" src="\/([^"]+)"><\/script>/g;
/** Files of a site that say nothing without a server, or that stand in the pages themselves. */
const LEFT_OUT =
  /^(?:404\.html|kept\/index\.html|site\.webmanifest|corrections\/(?:atom|rss)\.xml)$|\.vtt$|(?<!\.classic)\.js$|(?:^|\/)\.[^/]*$/;

interface SiteInFolder {
  /** Absolute path of the built site. */
  readonly site: string;
  /** Where the films and pictures of the site lie in the package, by path below its footage. */
  readonly footage: ReadonlyMap<string, string>;
  /** Address of the published site, where there is one: what is not in the package is looked at there. */
  readonly published?: string;
  /** Name that what is kept in the browser stands under. */
  readonly keep: string;
  /** Tags of the further languages of its pages. */
  readonly languages: readonly string[];
  /** What tells the system of a school what is done of a lesson. */
  readonly school?: SchoolScript;
}

export interface SchoolScript {
  /** Absolute path of the script, bundled into the pages of lessons. */
  readonly script: string;
  /** True where its system may lie anywhere, so that the pages' policy has to let it be asked. */
  readonly anywhere: boolean;
}

const LESSON = /^lessons\/[^/]+\/index\.html$/;

/** Puts pictures of lessons and steps into a built site, whose pages and papers show them as its files. */
export async function placeStills(stills: ReadonlyMap<string, string>, site: string): Promise<void> {
  for (const [path, file] of stills) {
    const to = join(site, FOOTAGE, path);
    await mkdir(dirname(to), { recursive: true });
    await copyFile(file, to);
  }
}

/** The page of a lesson in a package. */
export function pageOf(lesson: string): string {
  return `${PAGES}/lessons/${lesson}/index.html`;
}

/**
 * The pages of a built site as they are opened from a folder, by path in the package: addresses relative, scripts
 * classic, the records of search as a script, captions in the page. All else is the site's own, letter by letter.
 */
export async function pagesInFolder(options: SiteInFolder): Promise<Map<string, string | Uint8Array>> {
  const { site, footage, published, keep, languages, school } = options;
  const files = new Set(filesBelow(site));
  const made = new Map<string, string | Uint8Array>();
  const captions = new Map<string, string>();
  for (const file of files)
    if (file.endsWith('.vtt')) captions.set(file, (await readFile(join(site, file))).toString('base64'));
  const scripts = new Map<string, Promise<Script>>();

  const place = (path: string): string | undefined => {
    const file = path === '' || path.endsWith('/') ? `${path}index.html` : path;
    const first = inFirst(file, languages);
    if (first === RECORDS) return `${PAGES}/${file}.js`;
    const known = file.startsWith(`${FOOTAGE}/`) ? footage.get(file.slice(FOOTAGE.length + 1)) : undefined;
    if (known !== undefined) return known;
    return files.has(file) && !LEFT_OUT.test(first) ? `${PAGES}/${file}` : undefined;
  };
  const target = (from: string) => (path: string) => {
    const inline = captions.get(path);
    if (inline !== undefined) return `data:text/vtt;base64,${inline}`;
    const to = place(path);
    if (to !== undefined) return addressFrom(from, to);
    return published === undefined
      ? `${addressFrom(from, READ_ME_FILE)}#not-here`
      : new URL(encodeURI(path), published).href;
  };

  for (const file of [...files].toSorted()) {
    const to = `${PAGES}/${file}`;
    const first = inFirst(file, languages);
    if (LEFT_OUT.test(first)) continue;
    if (first === RECORDS) {
      const records = JSON.parse(await readFile(join(site, file), 'utf8'));
      made.set(`${to}.js`, `globalThis.liftsideRecords = ${JSON.stringify(records)};\n`);
    } else if (file.endsWith('.css')) {
      made.set(to, relativeStyles(await readFile(join(site, file), 'utf8'), target(to)));
    } else if (file.endsWith('.html')) {
      const html = await readFile(join(site, file), 'utf8');
      const entries = [...html.matchAll(MODULE)].map(([, path = '']) => path);
      const told = LESSON.test(first) ? school : undefined;
      const script = entries.length > 0 ? await scriptFor(entries, told?.script) : undefined;
      if (script) made.set(script.path, script.code);
      const page = relativePage(inFolder(html, script, to), target(to));
      made.set(to, told?.anywhere ? page.replace("connect-src 'self'", "connect-src 'self' https: http:") : page);
    } else made.set(to, await readFile(join(site, file)));
  }
  return made;

  function scriptFor(entries: readonly string[], more: string | undefined): Promise<Script> {
    const files = [...entries.map((entry) => join(site, entry)), ...(more === undefined ? [] : [more])];
    const key = files.join(' ');
    const known = scripts.get(key) ?? bundled(files, keep);
    scripts.set(key, known);
    return known;
  }
}

interface Script {
  /** In the package. */
  readonly path: string;
  readonly code: string;
  readonly styles: readonly string[];
}

async function bundled(files: readonly string[], keep: string): Promise<Script> {
  const { code, styles } = await classicScript(files, keep);
  const sum = hash('sha256', code).slice(0, 12);
  return { path: `${PAGES}/scripts/${sum}.js`, code, styles };
}

/** A page with its one script, and with what its policy has to allow beyond that of the site. */
function inFolder(html: string, script: Script | undefined, to: string): string {
  let first = true;
  const scripted = html.replace(MODULE, () => {
    const element = first && script ? `<script defer src="${addressFrom(to, script.path)}"></script>` : '';
    first = false;
    return element;
  });
  if (/<script[^>]*type="module"/.test(scripted)) throw new Error(`${to} has a script that a folder cannot run`);
  const more = (script?.styles ?? []).filter((path) => !scripted.includes(`href="/${path}"`));
  return (
    scripted
      .replace('</head>', () => `${more.map((path) => `<link rel="stylesheet" href="/${path}">`).join('')}</head>`)
      .replace("media-src 'self'", "media-src 'self' data:")
      .replace("connect-src 'self'", "connect-src 'self' data:")
      // Firefox does not count a page in a folder as the site's own where forms lead.
      .replace("form-action 'self'", "form-action 'self' file:")
  );
}
