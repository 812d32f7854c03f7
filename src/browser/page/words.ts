import { type Locale, type Messages, type Wording, wording } from '../../core/locale/index.ts';

/** The language of the page, with what its scripts say in it; English pages hand over nothing. */
export const locale: Locale = {
  tag: globalThis.document?.documentElement.lang || 'en',
  messages: messagesOf(globalThis.document?.getElementById('messages')?.textContent),
};

export const { t, plural }: Wording = wording(locale);

/** What our own page has written down for its scripts. */
function messagesOf(json: string | undefined): Messages {
  return json ? JSON.parse(json) : {};
}
