import { t } from '../page/words.ts';

/** Said while a connection is away: by the page as it goes, and where a film could not begin at all. */
export const CONNECTION_LOST = t('Connection lost. Your place is kept; it goes on by itself.');
