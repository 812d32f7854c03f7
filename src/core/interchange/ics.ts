import ical, { ICalAlarmType, ICalCalendarMethod } from 'ical-generator';
import type { Shop, ShopClass } from '../model/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import type { Exported } from './format.ts';
import { zonedTime } from './zoned-time.ts';

/** An address for letters by wire; a telephone number is no organiser (RFC 5545, 3.8.4.3: a calendar address). */
const ADDRESS = /^[^\s@<>,;]+@[^\s@<>,;]+\.[^\s@<>,;]+$/;
/** The evening before is time to lay out what to bring: a day ahead, s. */
const REMIND_SECONDS = 24 * 3600;

/**
 * A class as an iCalendar file with one event, in UTC, so that no time zone has to travel with it.
 *
 * Source: RFC 5545 (§3.6.1 DTSTART, DTEND, UID, DTSTAMP; folding and escaping are ical-generator's).
 *
 * @param stamp when the file is made
 * @param base path that the site is served under, such as `/garage/`; the one in the shop's address when left out
 */
export function writeIcs(shopClass: ShopClass, { info }: Shop, stamp: Date, base = '/'): Parsed<Exported> {
  const { id, title, date, starts, slot, place, summary, bring = [], map } = shopClass;
  const zone = info.timezone;
  const start = zonedTime(date, starts, zone ?? 'UTC');
  if (!start.ok) return start;
  const [hours = 0, minutes = 0] = slot.split(':').map(Number);
  if (hours * 60 + minutes === 0) return fail(`the slot of ${id} has no length`, 'write it as h:mm, such as "2:00"');
  const end = new Date(start.value.at.getTime() + (hours * 60 + minutes) * 60_000);
  const page = info.site === undefined ? undefined : pageAddress(info.site, base, `classes/${id}/`);
  const calendar = ical({
    prodId: { company: 'Liftside', product: 'class', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  const event = calendar.createEvent({
    id: `${id}@${info.site === undefined ? 'liftside.invalid' : hostOf(info.site)}`,
    stamp,
    start: start.value.at,
    end,
    floating: zone === undefined,
    summary: title,
    description: [
      ...(summary === undefined ? [] : [summary]),
      ...(bring.length > 0 ? [`Bring: ${bring.join(', ')}.`] : []),
      'The service manual for your exact model and year decides.',
      ...(map === undefined ? [] : [map]),
    ].join('\n'),
    ...(place === undefined ? {} : { location: place }),
    ...(page === undefined ? {} : { url: page }),
    ...(info.contact !== undefined && ADDRESS.test(info.contact)
      ? { organizer: { name: info.name, email: info.contact } }
      : {}),
  });
  event.createAlarm({
    type: ICalAlarmType.display,
    trigger: REMIND_SECONDS,
    description: bring.length > 0 ? `${title} tomorrow. Bring: ${bring.join(', ')}.` : `${title} tomorrow.`,
  });
  return ok({
    text: calendar.toString(),
    notes: [
      ...(zone === undefined
        ? ['the shop names no timezone:, so the event has no time zone and starts at that hour wherever it is opened']
        : []),
      ...(start.value.skipped ? [`${starts} does not exist in ${zone} on ${date}: the clocks go forward over it`] : []),
    ],
  });
}

/** The site's own path stands in its address; another base takes its place. */
function pageAddress(site: string, base: string, path: string): string {
  const under = base.replace(/\/?$/, '/');
  const start = under === '/' ? site.replace(/\/?$/, '/') : `${/^[a-z]+:\/\/[^/?#]+/i.exec(site)?.[0] ?? ''}${under}`;
  return `${start}${path}`;
}

function hostOf(site: string): string {
  return /^[a-z]+:\/\/([^/:?#]+)/i.exec(site)?.[1] ?? 'liftside.invalid';
}
