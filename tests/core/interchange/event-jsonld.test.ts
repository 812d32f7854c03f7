import { expect, test } from 'vitest';
import { eventJsonLd } from '../../../src/core/interchange/index.ts';
import { smallShop } from '../../support/shop.ts';

test('a class is an event with its moments in UTC, its place and who holds it', () => {
  const { shop, shopClass } = smallShop();
  const late = { ...shopClass, date: '2027-07-03', starts: '23:15', slot: '1:50', place: 'The old mill', capacity: 8 };
  const zoned = { ...shop, info: { ...shop.info, timezone: 'Europe/Vienna', site: 'https://millrace.example' } };
  // Central European Summer Time is UTC+2 (IANA time zone database, Europe/Vienna).
  expect(eventJsonLd(late, zoned, 'https://millrace.example/classes/x/')).toMatchObject({
    '@context': 'https://schema.org',
    '@type': 'Event',
    url: 'https://millrace.example/classes/x/',
    startDate: '2027-07-03T21:15:00.000Z',
    endDate: '2027-07-03T23:05:00.000Z',
    location: { '@type': 'Place', name: 'The old mill' },
    organizer: { name: 'Millrace Community Garage', url: 'https://millrace.example' },
    maximumAttendeeCapacity: 8,
  });
  // ISO 8601 local time where the shop names no zone.
  const { timezone: _, ...info } = zoned.info;
  expect(eventJsonLd(late, { ...shop, info }, 'x')).toMatchObject({ startDate: '2027-07-03T23:15:00' });
});

test('a class that does not say where it is is no event', () => {
  const { shop, shopClass } = smallShop();
  const { place: _, ...nowhere } = shopClass;
  expect(eventJsonLd(nowhere, shop, 'x')).toBeUndefined();
});
