import { scriptJson } from '../pages/index.ts';

/** The way from one file of a package to another, such as `../../film/chain.mp4`, as an address. */
export function addressFrom(from: string, to: string): string {
  const here = from.split('/').slice(0, -1);
  const there = to.split('/');
  let same = 0;
  while (same < here.length && same < there.length - 1 && here[same] === there[same]) same++;
  return [...here.slice(same).map(() => '..'), ...there.slice(same).map(encodePart)].join('/');
}

/** Free of every sign that ends an attribute, a string or an address. */
function encodePart(part: string): string {
  return encodeURIComponent(part).replace(/[!'()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}

/**
 * A page of a site that was built for the root of a server, with every address of the site itself made relative, so that
 * it can be opened from a folder. Attributes and the texts of JSON islands are looked at; all else stays letter by letter.
 *
 * @param from path of the page in the package
 * @param target the address for a path of the site (`''` for the front page), without query and fragment, as seen from
 *   the page; nothing where the path is not of the site
 */
export function relativePage(html: string, target: (path: string) => string | undefined): string {
  const changed = (address: string, plain: (text: string) => string) => {
    const [, path = '', rest = ''] = /^\/((?:&#?\w+;|[^?#])*)(.*)$/s.exec(address) ?? [];
    const decoded = decodePath(plain(path));
    const to = decoded === undefined ? undefined : target(decoded);
    return to === undefined ? undefined : to + rest;
  };
  return html.replace(ISLANDS_AND_ATTRIBUTES, (found, attribute) => {
    if (attribute === undefined)
      return found.replace(JSON_ADDRESS, (text: string) => {
        const to = changed(JSON.parse(text), (path) => path);
        return to === undefined ? text : scriptJson(to);
      });
    const to = changed(String(attribute), unescaped);
    return to === undefined ? found : `="${to}"`;
  });
}

// An address of the site itself begins with one slash.
const ISLANDS_AND_ATTRIBUTES = /<script type="application\/json"[^>]*>[^<]*<\/script>|="(\/(?!\/)[^"]*)"/g;
const JSON_ADDRESS = /"\/(?!\/)(?:[^"\\]|\\.)*"/g;

/** A style sheet with the addresses of files of its site made relative. */
export function relativeStyles(css: string, target: (path: string) => string | undefined): string {
  return css.replace(/url\((["']?)\/(?!\/)([^"')]*)\1\)/g, (found, _quote, path) => {
    const decoded = decodePath(String(path));
    const to = decoded === undefined ? undefined : target(decoded);
    return to === undefined ? found : `url("${to}")`;
  });
}

function decodePath(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}

const NAMED: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&#38;': '&',
  '&#39;': "'",
  '&quot;': '"',
  '&#34;': '"',
};

function unescaped(attribute: string): string {
  return attribute.replace(/&(?:amp|#38|#39|quot|#34);/g, (sign) => NAMED[sign] ?? sign);
}

/** Ending of a script of a site that runs from a folder as it is. */
export const CLASSIC_ENDING = '.classic.js';
