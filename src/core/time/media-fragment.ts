import { fromSeconds, type Ticks } from './ticks.ts';

/** The stretch a link names on the programme's clock; open at the end when `end` is left out. */
export interface Fragment {
  readonly start: Ticks<'programme'>;
  readonly end?: Ticks<'programme'>;
}

const SECONDS = /^\d+(?:\.\d*)?$/;
const CLOCK = /^(?:(\d+):)?(\d{2}):(\d{2}(?:\.\d*)?)$/;

/**
 * The time in the fragment of a link, such as `t=12.5`, `t=0:03:10,0:04` or `t=npt:90`.
 *
 * @param fragment what follows `#`, with or without it; percent-encoded
 * @returns the last valid time in it; nothing when there is none
 * Source: W3C Media Fragments URI 1.0 (basic), 4.2.1 temporal dimension (normal play time), 5.1 processing.
 */
export function parseFragment(fragment: string): Fragment | undefined {
  let found: Fragment | undefined;
  for (const pair of fragment.replace(/^#/, '').split('&')) {
    const equals = pair.indexOf('=');
    if (equals < 1) continue;
    const [name, value] = [decodeText(pair.slice(0, equals)), decodeText(pair.slice(equals + 1))];
    if (name === 't' && value !== undefined) found = span(value) ?? found;
  }
  return found;
}

function span(value: string): Fragment | undefined {
  const [from = '', to, more] = value.replace(/^npt:/, '').split(',');
  if (more !== undefined || to === '' || (from === '' && to === undefined)) return undefined;
  const start = from === '' ? 0 : seconds(from);
  const end = to === undefined ? undefined : seconds(to);
  if (start === undefined) return undefined;
  if (to === undefined) return { start: fromSeconds(start) };
  return end === undefined || end <= start ? undefined : { start: fromSeconds(start), end: fromSeconds(end) };
}

function seconds(text: string): number | undefined {
  if (SECONDS.test(text)) return Number(text);
  const match = CLOCK.exec(text);
  if (!match) return undefined;
  const [hours, minutes, rest] = [Number(match[1] ?? 0), Number(match[2]), Number(match[3])];
  return minutes > 59 || rest >= 60 ? undefined : (hours * 60 + minutes) * 60 + rest;
}

function decodeText(text: string): string | undefined {
  try {
    return decodeURIComponent(text);
  } catch {
    return undefined;
  }
}
