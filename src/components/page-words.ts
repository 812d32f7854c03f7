import { type LanguageOfPage, type Locale, type Messages, type Wording, wording } from '../core/locale/index.ts';
import { madeOnce } from '../core/pages/index.ts';
import { href } from './href.ts';

/** With those of its messages that scripts of a page say. */
type PageLocale = Locale & { readonly forScripts: Messages };

/** What a page and its components say in its language, and where their links lead. A page hands it to each of them. */
export interface PageWords extends Wording, LanguageOfPage<PageLocale> {
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

/**
 * How a page speaks.
 *
 * @param contentTag the language of what the shop wrote, where that is shown; left out, that of the site's root
 */
export function pageWords(page: LanguageOfPage<PageLocale>, contentTag = page.locales[0].tag): PageWords {
  const { locale, locales, prefix } = page;
  const foreign = contentTag === locale.tag ? undefined : contentTag;
  const [{ tag: root }] = locales;
  return {
    ...page,
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
