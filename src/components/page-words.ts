import { type Wording, wording } from '../core/locale/index.ts';
import { madeOnce } from '../core/pages/index.ts';
import { href } from './href.ts';

/** What a component says in the language of its page, and where its links lead. */
export interface PageWords extends Wording {
  /** The address of a page in the same language, or of a file of the site. */
  readonly href: (path: string) => string;
  /** For `lang` of the words of a lesson, where they are in another language than the page. */
  readonly foreign: string | undefined;
  /** The same for what the shop wrote besides its lessons: names of specs and tools, classes. */
  readonly foreignShop: string | undefined;
  /** For `lang` of words in a language; nothing where it is the page's. */
  readonly langOf: (tag: string) => string | undefined;
  /** For `lang` of what the page says in the midst of foreign words. */
  readonly own: string | undefined;
}

/** How a component of a page speaks. */
export function pageWords({ locals }: { readonly locals: App.Locals }): PageWords {
  const { locale, locales, prefix, contentTag } = locals;
  const foreign = contentTag === locale.tag ? undefined : contentTag;
  const [{ tag: root }] = locales;
  return {
    ...wording(locale),
    href: (path) => href(isPage(path) ? `${prefix}${path}` : path),
    foreign,
    langOf: (tag) => (tag === locale.tag ? undefined : tag),
    foreignShop: root === locale.tag ? undefined : root,
    own: foreign && locale.tag,
  };
}

/** True for the path of a page that each language has, with or without a place on it; false for that of a file. */
function isPage(path: string): boolean {
  return /^(?:[^?#]*\/)?(?:[?#]|$)/.test(path) && !madeOnce(path);
}
