import { dateTag } from '../../core/locale/index.ts';
import { locale } from './words.ts';

const language = () => dateTag(locale);

/** A day, YYYY-MM-DD, in words of the page's language. */
export function dayInWords(day: string): string {
  const words = new Intl.DateTimeFormat(language(), { dateStyle: 'long', timeZone: 'UTC' });
  return words.format(new Date(`${day}T00:00:00Z`));
}

/** A moment, as ISO 8601 writes it, in words of the page's language and in the reader's own time. */
export function momentInWords(moment: string): string {
  return new Intl.DateTimeFormat(language(), { dateStyle: 'long', timeStyle: 'short' }).format(new Date(moment));
}
