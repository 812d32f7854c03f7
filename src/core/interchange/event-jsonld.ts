import type { Shop, ShopClass } from '../model/index.ts';
import { zonedTime } from './zoned-time.ts';

/**
 * A class as a schema.org Event, for search engines; nothing where it cannot say where and when it is.
 *
 * Source: schema.org 30.0 (Event.startDate, endDate as ISO 8601, location, organizer, maximumAttendeeCapacity,
 * eventAttendanceMode).
 *
 * @param page whole address of the class's page
 */
export function eventJsonLd(shopClass: ShopClass, { info }: Shop, page: string): object | undefined {
  const { title, summary, date, starts, slot, place, capacity } = shopClass;
  const start = zonedTime(date, starts, info.timezone ?? 'UTC');
  const [hours = 0, minutes = 0] = slot.split(':').map(Number);
  if (place === undefined || !start.ok) return undefined;
  const end = new Date(start.value.at.getTime() + (hours * 60 + minutes) * 60_000);
  // Without a time zone the hour is that of the place, which ISO 8601 writes without a letter.
  const written = (moment: Date) =>
    info.timezone === undefined ? moment.toISOString().slice(0, 19) : moment.toISOString();
  return {
    '@context': 'https://schema.org',
    '@type': 'Event',
    '@id': `${page}#event`,
    name: title,
    ...(summary === undefined ? {} : { description: summary }),
    url: page,
    startDate: written(start.value.at),
    endDate: written(end),
    eventAttendanceMode: 'https://schema.org/OfflineEventAttendanceMode',
    eventStatus: 'https://schema.org/EventScheduled',
    location: { '@type': 'Place', name: place, address: place },
    organizer: { '@type': 'Organization', name: info.name, ...(info.site === undefined ? {} : { url: info.site }) },
    ...(capacity === undefined ? {} : { maximumAttendeeCapacity: capacity }),
    ...(info.language === undefined ? {} : { inLanguage: info.language }),
  };
}
