import { type Wording, wording } from '../core/locale/index.ts';
import { madeOnce } from '../core/pages/index.ts';
import { href } from './href.ts';

/** What a component says in the language of its page, and where its links lead. */
export interface PageWords extends Wording {
  /** The address of a page in the same language, or of a file of the site. */
  readonly href: (path: string) => string;
  /** For `lang` of what the shop wrote, where that is in another language than the page. */
  readonly foreign: string | undefined;
}

/** How a component of a page speaks. */
export function pageWords({ locals }: { readonly locals: App.Locals }): PageWords {
  const { locale, prefix, contentTag } = locals;
  return {
    ...wording(locale),
    href: (path) => href(isPage(path) ? `${prefix}${path}` : path),
    foreign: contentTag === locale.tag ? undefined : contentTag,
  };
}

/** True for the path of a page that each language has, with or without a place on it; false for that of a file. */
function isPage(path: string): boolean {
  return /^(?:[^?#]*\/)?(?:[?#]|$)/.test(path) && !madeOnce(path);
}
