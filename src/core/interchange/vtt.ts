import { webvttTime } from '../programme/index.ts';
import { withoutBlankLines } from '../read/index.ts';
import { TICKS_PER_SECOND } from '../time/index.ts';
import type { TimedCaption } from './format.ts';

const MS = TICKS_PER_SECOND / 1000;

/**
 * Captions as a WebVTT file that every browser reads as meant: in order, none empty in time, ids once each.
 *
 * @param blocks style and region blocks, as written
 * @param kind stands in the first line, so that a reader need not guess
 * Source: W3C WebVTT, "WebVTT file structure" and "Properties of cue sequences".
 */
export function writeVtt(
  captions: readonly TimedCaption[],
  blocks: readonly string[] = [],
  kind?: 'captions' | 'chapters' | 'metadata',
): string {
  const ids = new Set<string>();
  const cues = captions
    .toSorted((a, b) => a.at.start - b.at.start)
    .map(({ id = '', at, markup, settings }) => {
      const start = Math.round(at.start / MS) * MS;
      const end = Math.max(Math.round(at.end / MS), Math.round(at.start / MS) + 1) * MS;
      const name = id
        .replaceAll('-->', '→')
        .replaceAll(/[\r\n]+/g, ' ')
        .trim();
      const head = name !== '' && !ids.has(name) ? `${name}\n` : '';
      ids.add(name);
      const times = `${webvttTime(start)} --> ${webvttTime(end)}`;
      return `${head}${times}${settings ? ` ${settings.replaceAll(/\s+/g, ' ').replaceAll('-->', '')}` : ''}\n${payload(markup)}`;
    });
  return `${[kind ? `WEBVTT ${kind}` : 'WEBVTT', ...blocks.map((block) => block.trim()), ...cues].join('\n\n')}\n`;
}

/** Cue text that cannot end its cue early. */
function payload(markup: string): string {
  return withoutBlankLines(markup).replaceAll('-->', '--&gt;').replaceAll('\0', '\uFFFD');
}
